"""The same vehicle, in which all that the box remembers inside a longer rule has a rule of its own, and so a name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Box,
    Edge,
    Expr,
    Impulse,
    NumberSense,
    Output,
    Previous,
    Program,
    Rule,
    Signal,
    SignalKind,
    Timer,
)
from logiccheck.lang.rebuild import replace_leaves, with_condition
from logiccheck.lang.walk import Memory, condition_of
from logiccheck.model.truth import is_filter


@frozen
class Lifted:
    """`named`: by its key, the signal of `program` that is true exactly when what remembers under that key is, once all
    has settled.

    Missing there is what stands inside `previous`, which may look at later rules, and inside a longer coil.
    """

    program: Program
    named: Mapping[str, Signal]

    def outside(self, condition: Expr) -> Expr:
        """The condition, in which what box or relays remember is asked for by its name. What has no name, or is the
        condition's own, stays."""

        def change(leaf: Expr) -> Expr:
            if isinstance(leaf, Memory) and leaf.key in self.named:
                return self.named[leaf.key]
            match leaf:
                case Timer() | Blink() | Edge() | Previous():
                    return replace(leaf, x=self.outside(leaf.x))
                case Bistable():
                    return replace(leaf, set=self.outside(leaf.set), reset=self.outside(leaf.reset))
                case Impulse():
                    return replace(leaf, x=self.outside(leaf.x), reset=self.outside(leaf.reset))
                case _:
                    return leaf

        return replace_leaves(condition, change)


def lifted(program: Program) -> Lifted:
    """The vehicle with a name for what it remembers; it does what the program does."""
    lifter = _Lifter()
    for relay in program.relays:
        if isinstance(relay.coil, Memory):  # settled, the contact is as the coil
            lifter.named[relay.coil.key] = Signal(SignalKind.RELAY, relay.name)
    box = program.box
    if box is None:
        return Lifted(program, lifter.named)
    if box.startup is not None:
        lifter.named[box.startup.key] = Signal(SignalKind.POWERED, "powered")
    for sense in box.senses:
        if not isinstance(sense, NumberSense) and sense.filter is not None:
            lifter.named[sense.filter.key] = Signal(SignalKind.SENSE, sense.name)
    return Lifted(replace(program, box=lifter.box(box)), lifter.named)


@dataclass(slots=True)
class _Lifter:
    """`rules` so far, each before those that name it."""

    named: dict[str, Signal] = field(default_factory=dict)
    rules: list[Rule | Output] = field(default_factory=list)

    def box(self, box: Box) -> Box:
        for rule in box.rules:
            expr = condition_of(rule)
            if isinstance(expr, Memory) and not is_filter(expr):
                kind = SignalKind.RULE if isinstance(rule, Rule) else SignalKind.COMMAND
                self.named[expr.key] = Signal(kind, rule.name)
                expr = self._operands(expr)
            else:
                expr = self._inside(expr)
            self.rules.append(with_condition(rule, expr))
        return replace(box, rules=tuple(self.rules))

    def _inside(self, expr: Expr) -> Expr:
        """The expression, in which what remembers is the name of a rule of its own."""

        def change(leaf: Expr) -> Expr:
            if not isinstance(leaf, Memory) or is_filter(leaf):
                return leaf
            if leaf.key not in self.named:
                rule = Rule(f"inside {leaf.key}", "", self._operands(leaf), leaf.span)
                self.rules.append(rule)
                self.named[leaf.key] = Signal(SignalKind.RULE, rule.name)
            return self.named[leaf.key]

        return replace_leaves(expr, change)

    def _operands(self, node: Expr) -> Expr:
        match node:
            case Timer() | Blink() | Edge():
                return replace(node, x=self._inside(node.x))
            case Bistable():
                return replace(node, set=self._inside(node.set), reset=self._inside(node.reset))
            case Impulse():
                return replace(node, x=self._inside(node.x), reset=self._inside(node.reset))
            case _:
                return node
