"""What a signal hangs on at a settled moment: a boolean function over facts, and which facts can hold together.

A fact is a sense, a comparison, the position of a switch, a relay contact, a true output, the power of the box, what
supplies something, or what remembers (a timer, a stored state). Not all are independent: a switch stands in one
position, a number has one value, and without power (without supply) what is sensed or remembered reads off. Power, what
supplies something, or a sense is no fact where nothing that is written can make it otherwise.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias, assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.deciding import each_leaf
from logiccheck.explain.ever import ever
from logiccheck.explain.inside import COPPER, POWERED, WIRES, Inside, Term
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Compare,
    Const,
    Expr,
    Not,
    NumberSense,
    Op,
    Or,
    Position,
    Program,
    Signal,
    SignalKind,
    Xor,
)
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf

Key: TypeAlias = Hashable
BOXED = (SignalKind.RULE, SignalKind.COMMAND, SignalKind.OUTPUT)


@frozen
class Fact:
    """`leaf` reads `value` now; of a switch `leaf` is the position it stands in, and `value` is true.

    `spans` are the places where it is written, in the nearest lines; `via` the terms that lead to these from the line
    asked about, and `root` says which of its terms the first of them is.
    """

    leaf: Leaf
    value: bool
    spans: tuple[Span, ...]
    via: tuple[Span, ...] = ()
    root: int = 0


@frozen
class Function:
    """What is asked, as a circuit: `lit` is its value, and `possible` what every situation meets.

    `facts` come nearest first, then in the order written; `holds[i]` says that the i-th is as it is now. `value` is how
    what is asked reads now.
    """

    aig: Aig
    lit: Lit
    possible: Lit
    facts: tuple[Fact, ...]
    holds: tuple[Lit, ...]
    value: bool


def function(program: Program, values: Values, asked: Expr) -> Function:
    """The function of an expression over signals, which are looked into, all of copper or all of the box.

    `values` are those of a reaction: settled, or one in which outputs have not changed.
    """
    signals = [leaf for leaf in each_leaf(asked) if isinstance(leaf, Signal)]
    copper = not any(signal.kind in BOXED for signal in signals)
    return _function(values, asked, Inside(program, frozenset(signals), copper), None)


def condition(program: Program, values: Values, asked: Expr, guard: Expr | None) -> Function:
    """The function of a part of a rule (`guard`: the power) or of a coil (`guard`: its supply, if it has one).

    The signals that it names are facts, but for rules.
    """
    return _function(values, asked, Inside(program, frozenset(), guard != POWERED), guard)


def fixed(program: Program, values: Values, leaf: Expr) -> bool:
    """Whether it is power, of copper or a sense, and nothing that is written can make it otherwise than in these
    values."""
    if not isinstance(leaf, Signal) or leaf.kind not in (*COPPER, SignalKind.POWERED, SignalKind.SENSE):
        return False
    f = function(program, values, leaf)
    return not ever(f.aig, f.lit ^ f.value, f.possible)


def _function(values: Values, asked: Expr, inside: Inside, guard: Expr | None) -> Function:
    builder = _Builder(inside, values)
    if isinstance(asked, Signal) and asked in inside.opened:
        lit = builder.open(asked)
    else:
        lit = builder.expr(asked, builder.expr(guard, TRUE) if guard is not None else TRUE)
    facts = tuple(fact for fact in _facts(values, inside, asked) if not builder.fixed(fact.leaf))
    holds = tuple(builder.leaf(fact.leaf, TRUE) ^ (not fact.value) for fact in facts)
    possible = builder.aig.all_of([*builder.possible, *builder.one_position(), *builder.one_value()])
    return Function(builder.aig, lit, possible, facts, holds, _reads(values, inside, asked))


def _reads(values: Values, inside: Inside, asked: Expr) -> bool:
    """How it reads; a relay that is asked about as its coil, which its contact follows."""
    if isinstance(asked, Signal) and asked.kind is SignalKind.RELAY and asked in inside.opened:
        return all(values.holds(part) for part in inside.parts(asked))
    return values.holds(asked)


def _facts(values: Values, inside: Inside, asked: Expr) -> Iterator[Fact]:
    """Each fact once, with the places where it is written nearest."""
    written: dict[Key, list[Term]] = {}
    for term in inside.terms(asked):
        found = written.setdefault(key_of(term.leaf), [term])
        if term is not found[0] and term.depth == found[0].depth:
            found.append(term)
    for terms in written.values():
        leaf = terms[0].leaf
        if isinstance(leaf, Position):
            leaf = Position(leaf.name, frozenset([int(values.world[leaf.name])]), leaf.span)
        spans = tuple(dict.fromkeys(term.leaf.span for term in terms if term.leaf.span != NOWHERE))
        via = tuple(dict.fromkeys(term.via for term in terms if term.via != NOWHERE))
        yield Fact(leaf, values.holds(leaf), spans, via, terms[0].root)


def key_of(leaf: Leaf) -> Key:
    """Two terms with one key are one fact; all positions of a switch are."""
    match leaf:
        case Signal(kind=kind, name=name):
            return kind, name
        case Position(name=name):
            return name
        case Compare(name=name, sense=sense, op=op, bound=bound):
            return name, sense, op, bound
        case _:
            return "remembers", leaf.key


@dataclass(slots=True)
class _Builder:
    inside: Inside
    values: Values
    aig: Aig = field(default_factory=Aig)
    possible: list[Lit] = field(default_factory=list)  # what always holds, but for switches and numbers
    inputs: dict[Key, Lit] = field(default_factory=dict)
    known: dict[Key, bool] = field(default_factory=dict)  # whether it is fixed
    opened: dict[Signal, Lit] = field(default_factory=dict)
    switches: dict[str, list[Lit]] = field(default_factory=dict)  # by position
    numbers: dict[str, dict[Fraction, tuple[Lit, Lit]]] = field(default_factory=dict)  # below it, at most it

    def expr(self, expr: Expr, guard: Lit) -> Lit:
        """The value of an expression; what remembers in it needs `guard`."""
        match expr:
            case Const(value=value):
                return self.aig.constant(value)
            case Not(x=x):
                return self.expr(x, guard) ^ 1
            case And(parts=parts):
                return self.aig.all_of([self.expr(part, guard) for part in parts])
            case Or(parts=parts):
                return self.aig.any_of([self.expr(part, guard) for part in parts])
            case Xor(left=left, right=right):
                return self.aig.differ(self.expr(left, guard), self.expr(right, guard))
            case AtMostOne(parts=parts):
                return self._at_most_one([self.expr(part, guard) for part in parts])
            case Signal() if self.inside.opens(expr):
                return self.open(expr)
            case _:
                return self.leaf(expr, guard)

    def _at_most_one(self, lits: list[Lit]) -> Lit:
        none, one = TRUE, FALSE
        for lit in lits:
            one = self.aig.choose(lit, none, one)
            none = self.aig.both(none, lit ^ 1)
        return self.aig.either(none, one)

    # ------------------------------------------------------------------------------------------- what is looked into

    def open(self, signal: Signal) -> Lit:
        if signal not in self.opened:
            if signal.kind in WIRES:
                self._wires(signal)
            else:
                self.opened[signal] = self._all_parts(signal)
        return self.opened[signal]

    def _all_parts(self, signal: Signal) -> Lit:
        """The first part is what all that remembers in the others needs: power, or supply."""
        first, *others = self.inside.parts(signal)
        if not others:
            return self.expr(first, TRUE)
        guard = self.expr(first, TRUE)
        return self.aig.both(guard, self.aig.all_of([self.expr(part, guard) for part in others]))

    def _wires(self, wire: Signal) -> None:
        """All wires from which current can come to this one, as the least solution: a round for each wire is enough."""
        steps = {wire: self.inside.steps(wire)}
        todo = [wire]
        while todo:
            tails = [step.tail for step in steps[todo.pop()]]
            for tail in tails:
                if tail.kind is wire.kind and tail not in steps and self.inside.opens(tail):
                    steps[tail] = self.inside.steps(tail)
                    todo.append(tail)
        always = Const(True)
        ways = {
            end: [(step.tail, self.expr(step.condition or always, TRUE)) for step in found]
            for end, found in steps.items()
        }
        known = {tail: self.expr(tail, TRUE) for found in ways.values() for tail, _ in found if tail not in steps}
        lits = dict.fromkeys(steps, FALSE)
        for _ in steps:
            here = known | lits
            lits = {end: self.aig.any_of([self.aig.both(c, here[t]) for t, c in ways[end]]) for end in ways}
        self.opened |= lits

    # --------------------------------------------------------------------------------------------------------- facts

    def leaf(self, leaf: Leaf, guard: Lit) -> Lit:
        """The value of a fact; what remembers, and what the box senses, is off without power or supply."""
        if isinstance(leaf, Position):
            return self.aig.any_of([self._positions(leaf.name)[index] for index in sorted(leaf.indices)])
        if isinstance(leaf, Compare):
            value = self._compare(leaf)
            return self.aig.both(self.expr(POWERED, TRUE), value) if leaf.sense else value
        if self.fixed(leaf):
            return self.aig.constant(self.values.holds(leaf))
        key = key_of(leaf)
        if key not in self.inputs:
            self.inputs[key] = self.aig.new_input(str(key))
            if not isinstance(leaf, Signal) or leaf.kind is SignalKind.SENSE:
                self.possible.append(self.aig.implies(self.inputs[key], guard))
        return self.inputs[key]

    def fixed(self, leaf: Leaf) -> bool:
        """Whether it is no fact, because it cannot be otherwise."""
        key = key_of(leaf)
        if key not in self.known:
            self.known[key] = fixed(self.inside.program, self.values, leaf)
        return self.known[key]

    def _positions(self, name: str) -> list[Lit]:
        if name not in self.switches:
            switch = next(switch for switch in self.inside.program.switches if switch.name == name)
            self.switches[name] = [self.aig.new_input(f"{name} is {each}") for each in switch.positions]
        return self.switches[name]

    def _compare(self, leaf: Compare) -> Lit:
        below, up_to = self._marks(leaf)
        match leaf.op:
            case Op.LT:
                return below
            case Op.LE:
                return up_to
            case Op.GT:
                return up_to ^ 1
            case Op.GE:
                return below ^ 1
            case Op.EQ:
                return self.aig.both(up_to, below ^ 1)
            case Op.NE:
                return self.aig.either(below, up_to ^ 1)
            case _:
                assert_never(leaf.op)

    def _marks(self, leaf: Compare) -> tuple[Lit, Lit]:
        """Whether the number is below what it is held against, and whether it is at most that."""
        name = leaf.name
        if leaf.sense and self.inside.program.box:
            senses = self.inside.program.box.senses
            name = next(s.number for s in senses if isinstance(s, NumberSense) and s.name == leaf.name)
        marks = self.numbers.setdefault(name, {})
        if leaf.bound not in marks:
            below = self.aig.new_input(f"{name} < {leaf.bound}")
            marks[leaf.bound] = below, self.aig.new_input(f"{name} <= {leaf.bound}")
        return marks[leaf.bound]

    def one_position(self) -> Iterator[Lit]:
        """A switch stands in just one position."""
        for lits in self.switches.values():
            yield self.aig.any_of(lits)
            yield self._at_most_one(lits)

    def one_value(self) -> Iterator[Lit]:
        """A number has one value in its range: what is below a mark is at most it, and below any mark above it."""
        for number in self.inside.program.numbers:
            so_far = FALSE
            for bound, (below, up_to) in sorted(self.numbers.get(number.name, {}).items()):
                yield self.aig.implies(so_far, below)
                yield self.aig.implies(below, up_to)
                if bound <= number.low:
                    yield below ^ 1
                if bound < number.low:
                    yield up_to ^ 1
                if bound >= number.high:
                    yield up_to
                if bound > number.high:
                    yield below
                so_far = up_to
