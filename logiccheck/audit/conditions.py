"""The value of an expression in one look, from the world, the signals, and what it remembers."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from typing import TypeAlias, assert_never

from logiccheck.audit.gates import NO, YES, Lit
from logiccheck.audit.memory import Memory
from logiccheck.audit.world import World
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    NumberSense,
    Or,
    Position,
    Previous,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Xor,
)

Values: TypeAlias = Mapping[tuple[SignalKind, str], Lit]
POWERED = (SignalKind.POWERED, "powered")


class Conditions:
    """Evaluates in one look. `filtered` are the filters known so far, by key; `later` collects each `previous` whose
    operand has to wait until the reaction is complete (None: no operand has to)."""

    def __init__(
        self,
        program: Program,
        world: World,
        values: Values,
        filtered: dict[str, Lit],
        memory: Memory | None = None,
        later: list[Previous] | None = None,
    ) -> None:
        self.world, self.values, self.filtered, self.memory, self.later = world, values, filtered, memory, later
        self.gates = world.gates
        self.numbers = number_senses(program)

    def holds(self, expr: Expr) -> Lit:
        match expr:
            case Const(value=value):
                return YES if value else NO
            case Not(x=x):
                return -self.holds(x)
            case And(parts=parts):
                return self.gates.all([self.holds(part) for part in parts])
            case Or(parts=parts):
                return self.gates.any([self.holds(part) for part in parts])
            case Xor(left=left, right=right):
                return self.gates.differ(self.holds(left), self.holds(right))
            case AtMostOne(parts=parts):
                pairs = combinations([self.holds(part) for part in parts], 2)
                return self.gates.all([-self.gates.both(a, b) for a, b in pairs])
            case Signal() | Position() | Compare():
                return self._leaf(expr)
            case Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous():
                return self._remembering(expr)
            case _:
                assert_never(expr)

    def _leaf(self, leaf: Signal | Position | Compare) -> Lit:
        match leaf:
            case Signal(kind=kind, name=name):
                return self.values[kind, name]
            case Position(name=name, indices=indices):
                return self.world.variables[name].among(indices)
            case Compare(name=name, op=op, bound=bound) if not leaf.sense:
                return self.world.variables[name].held_against(op, bound)
            case Compare(name=name, op=op, bound=bound):
                number = self.world.variables[self.numbers[name]]
                return self.gates.both(self.values[POWERED], number.held_against(op, bound))
            case _:
                assert_never(leaf)

    def _remembering(self, node: Timer | Blink | Bistable | Impulse | Edge | Previous) -> Lit:
        if isinstance(node, Timer) and node.kind is TimerKind.FILTER and node.key in self.filtered:
            return self.filtered[node.key]
        if self.memory is None:
            raise AssertionError(f"{node.key} stands where nothing is remembered")
        if not isinstance(node, Previous):
            return self.memory.value(node, self.holds)
        if self.later is None:
            return self.memory.remember(node, self.holds(node.x))
        self.later.append(node)
        return self.memory.previous(node)


def number_senses(program: Program) -> dict[str, str]:
    """By the name of a number sense, the number that it reads."""
    senses = program.box.senses if program.box is not None else ()
    return {sense.name: sense.number for sense in senses if isinstance(sense, NumberSense)}
