"""A signal as a condition over facts: what rules and copper make of it once all has settled, written out.

Facts of the box are its senses, its power, what feeds an output, and all that remembers (a timer, a stored state, an
edge). Facts of copper are hands and physics, relay contacts, true outputs, and what remembers in a coil. Rules without
memory, wires, sources and grounds are written out; a wire by all ways that lead to it. The facts are in the order in
which the text names them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.explain.deciding import leaves
from logiccheck.explain.situation import Asked
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Box,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Op,
    Or,
    Output,
    Position,
    Previous,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Switch,
    Timer,
    WireSense,
    Xor,
)
from logiccheck.lang.rebuild import replace_leaves, with_condition
from logiccheck.lang.walk import Memory, condition_of

MOST_PARTS = 5_000
COMPLEMENT = {Op.LE: Op.GT, Op.LT: Op.GE, Op.NE: Op.EQ}
POWERED = Signal(SignalKind.POWERED, "powered")


class TooLarge(Exception):
    """Written out it would be longer than anybody reads, or follows."""


@frozen
class Unfolded:
    """`on` is true, once all has settled, exactly when the signal is on.

    `facts` are its leaves. `asked` says how to name those that remember from outside, in `program`: the same vehicle,
    in which what remembers inside a longer rule has a rule of its own. What remembers inside a longer coil has no name
    outside, and is missing there.
    """

    program: Program
    on: Expr
    facts: tuple[Expr, ...]
    asked: dict[Expr, Expr]

    def outside(self, condition: Expr) -> Expr | None:
        """The condition as it is asked of `program`; None where it has no name for one of its facts."""
        if condition in self.asked:
            return self.asked[condition]
        match condition:
            case Not(x=x):
                inner = self.outside(x)
                return None if inner is None else Not(inner)
            case And(parts=parts):
                return self._joined(And, parts)
            case Or(parts=parts):
                return self._joined(Or, parts)
            case _:
                return None if isinstance(condition, Memory) else condition

    def _joined(self, join: type[And] | type[Or], parts: tuple[Expr, ...]) -> Expr | None:
        found = [self.outside(part) for part in parts]
        known = tuple(part for part in found if part is not None)
        return join(known) if len(known) == len(found) else None


def unfolded(program: Program, on: Expr) -> Unfolded:
    """The signals in `on` written out. Raises `TooLarge`."""
    writer = _Writer(program)
    expr = writer.outermost(on)
    facts = leaves(expr)
    asked = dict(writer.named)
    asked |= {fact: fact for fact in facts if not isinstance(fact, Memory)}
    inner: set[Expr] = {fact for fact in facts if fact not in asked}
    if program.box is None:
        return Unfolded(program, expr, facts, asked)
    box, more = _with_rules_of_their_own(program.box, inner)
    return Unfolded(replace(program, box=box), expr, facts, asked | more)


def can_arrive(program: Program, wire: str, kind: SignalKind) -> bool:
    """Whether any way leads to the wire that could make it live (or grounded, by the kind), whatever it takes."""
    return _Writer(program).can_arrive(wire, kind)


def narrowed(program: Program, asked: Asked) -> Asked:
    """Of a wire that nothing can ground, whether it is live; of one that nothing makes live, whether it is grounded;
    anything else as it is."""
    if not isinstance(asked.on, Or):
        return asked
    writer = _Writer(program)
    live, grounded = asked.on.parts
    for part, other, state in ((live, SignalKind.GROUNDED, "live"), (grounded, SignalKind.LIVE, "grounded")):
        if not writer.can_arrive(asked.name, other):
            return Asked(asked.name, asked.label, part, state, asked.no)
    return asked


@dataclass(slots=True)
class _Writer:
    """`named`: facts that remember, with the signal that is true exactly when they are."""

    program: Program
    named: dict[Expr, Expr] = field(default_factory=dict)
    parts: int = 0

    def all_of(self, expr: Expr) -> Expr:
        """The expression as it is inside the box, or in copper."""
        self.parts += 1
        if self.parts > MOST_PARTS:
            raise TooLarge
        match expr:
            case Const():
                return expr
            case Signal():
                return self._signal(expr)
            case Position():
                return self._position(expr)
            case Compare(op=op):
                turned = COMPLEMENT.get(op)
                return expr if turned is None or expr.sense else Not(replace(expr, op=turned))
            case Not(x=x):
                return Not(self.all_of(x))
            case And(parts=parts):
                return And(tuple(self.all_of(part) for part in parts))
            case Or(parts=parts):
                return Or(tuple(self.all_of(part) for part in parts))
            case Xor(left=left, right=right):
                return Xor(self.all_of(left), self.all_of(right))
            case AtMostOne(parts=parts):
                return AtMostOne(tuple(self.all_of(part) for part in parts))
            case Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous():
                return expr
            case _:
                assert_never(expr)

    def _position(self, position: Position) -> Expr:
        """Of two positions one says all."""
        switch = next(each for each in self.program.switches if each.name == position.name)
        return Not(_last(switch)) if len(switch.positions) == 2 and position.indices == {0} else position

    def _signal(self, signal: Signal) -> Expr:
        kind, name = signal.kind, signal.name
        match kind:
            case SignalKind.SOURCE | SignalKind.GROUND:
                return self._end(name)
            case SignalKind.LIVE | SignalKind.GROUNDED:
                return self._wire(name, kind, frozenset())
            case SignalKind.RULE | SignalKind.COMMAND:
                return self._rule(name)
            case SignalKind.RELAY | SignalKind.OUTPUT | SignalKind.SENSE | SignalKind.POWERED:
                return signal
            case _:
                assert_never(kind)

    def outermost(self, on: Expr) -> Expr:
        """What is asked, as hands see it: relays, outputs, senses and the power of the box are written out, too, and
        without power a rule is off."""
        match on:
            case Not(x=x):
                return Not(self.outermost(x))
            case And(parts=parts):
                return And(tuple(self.outermost(part) for part in parts))
            case Or(parts=parts):
                return Or(tuple(self.outermost(part) for part in parts))
            case Signal(kind=SignalKind.RELAY, name=name):
                return self._relay(next(each for each in self.program.relays if each.name == name))
            case Signal(kind=SignalKind.OUTPUT, name=name):
                return self._output(name)
            case Signal(kind=SignalKind.SENSE, name=name):
                return self._sense(name)
            case Signal(kind=SignalKind.POWERED):
                return self._power()
            case Signal(kind=SignalKind.RULE):
                return And((POWERED, self.all_of(on)))
            case _:
                return self.all_of(on)

    # -------------------------------------------------------------------------------------------------- box

    def _box(self) -> Box:
        assert self.program.box is not None
        return self.program.box

    def _rule(self, name: str) -> Expr:
        rule = next(each for each in self._box().rules if each.name == name)
        expr = condition_of(rule)
        if isinstance(expr, Memory):
            kind = SignalKind.RULE if isinstance(rule, Rule) else SignalKind.COMMAND
            self.named[expr] = Signal(kind, name)
        return self.all_of(expr)

    def _output(self, name: str) -> Expr:
        output = next(each for each in self._box().outputs if each.name == name)
        fed = () if output.fed_by is None else (self._is_live(output.fed_by),)
        return And((POWERED, self._rule(name), *fed))

    def _is_live(self, name: str) -> Signal:
        """The wire or source, as a fact."""
        return Signal(SignalKind.SOURCE if name in self._ends(SignalKind.LIVE) else SignalKind.LIVE, name)

    def _sense(self, name: str) -> Expr:
        sense = next(each for each in self._box().senses if each.name == name)
        assert isinstance(sense, WireSense)
        if sense.filter is not None:
            self.named[sense.filter] = Signal(SignalKind.SENSE, name)
            return sense.filter
        if sense.wire in self._ends(SignalKind.LIVE) | self._ends(SignalKind.GROUNDED):
            return And((POWERED, self._end(sense.wire)))
        kind = SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE
        return And((POWERED, self._wire(sense.wire, kind, frozenset())))

    def _power(self) -> Expr:
        box = self._box()
        if box.startup is not None:
            self.named[box.startup] = POWERED
            return box.startup
        return self.all_of(self._is_live(box.feed))

    # ----------------------------------------------------------------------------------------------- copper

    def _relay(self, relay: Relay) -> Expr:
        """Settled, a contact is as its coil: supplied, and told to close."""
        if isinstance(relay.coil, Memory):  # without supply it forgets, and reads false
            self.named[relay.coil] = Signal(SignalKind.RELAY, relay.name)
            return relay.coil
        coil = self.all_of(relay.coil)
        return coil if relay.supply is None else And((self.all_of(relay.supply), coil))

    def _end(self, name: str) -> Expr:
        return self.all_of((self._ends(SignalKind.LIVE) | self._ends(SignalKind.GROUNDED))[name])

    def _ends(self, kind: SignalKind) -> dict[str, Expr]:
        """The conditions of the sources, or of the grounds, by name."""
        if kind is SignalKind.LIVE:
            return {source.name: source.condition for source in self.program.sources}
        return {ground.name: ground.condition for ground in self.program.grounds}

    def _wire(self, wire: str, kind: SignalKind, passed: frozenset[str]) -> Expr:
        """All ways to a wire that do not come back to a wire they have passed."""
        self.parts += 1
        if self.parts > MOST_PARTS:
            raise TooLarge
        ends = self._ends(kind)
        wires = {each.name for each in self.program.wires}
        passed |= {wire}
        ways: list[Expr] = []
        for tail, condition in self._arriving(wire, kind):
            if tail in ends:
                ways.append(And((self._end(tail), self.all_of(condition))))
            elif tail in wires - passed:
                before = self._wire(tail, kind, passed)
                if before != Const(False):
                    ways.append(And((before, self.all_of(condition))))
        ways += self._feeding(wire, kind)
        return Or(tuple(ways)) if ways else Const(False)

    def can_arrive(self, wire: str, kind: SignalKind) -> bool:
        """Whether any way leads to the wire, whatever it takes."""
        wires, ends = {each.name for each in self.program.wires}, self._ends(kind).keys()
        ways = [(head, tail) for tail, head in self._ways(kind) if head in wires and tail in wires | ends]
        fed = {output.feeds for output in self.program.box.outputs} if self.program.box is not None else set()
        begins = {*ends, *(fed if kind is SignalKind.LIVE else ())}
        return not begins.isdisjoint(spread([wire], ways))

    def _ways(self, kind: SignalKind) -> Iterator[tuple[str, str]]:
        """What is joined, from where to where something may arrive, whatever it takes."""
        for contact in self.program.contacts:
            yield from ((contact.left, contact.right), (contact.right, contact.left))
        for diode in self.program.diodes:
            yield (diode.anode, diode.cathode) if kind is SignalKind.LIVE else (diode.cathode, diode.anode)

    def _feeding(self, wire: str, kind: SignalKind) -> list[Expr]:
        """The outputs that make a wire live."""
        if kind is not SignalKind.LIVE or self.program.box is None:
            return []
        return [Signal(SignalKind.OUTPUT, output.name) for output in self.program.box.outputs if output.feeds == wire]

    def _arriving(self, wire: str, kind: SignalKind) -> Iterator[tuple[str, Expr]]:
        """What is joined to a wire so that it may arrive from there, and while what is so."""
        for contact in self.program.contacts:
            if wire == contact.right:
                yield contact.left, contact.condition
            if wire == contact.left:
                yield contact.right, contact.condition
        for diode in self.program.diodes:
            tail, head = (diode.anode, diode.cathode) if kind is SignalKind.LIVE else (diode.cathode, diode.anode)
            if head == wire:
                yield tail, Const(True)


def _last(switch: Switch) -> Position:
    return Position(switch.name, frozenset({len(switch.positions) - 1}))


def _with_rules_of_their_own(box: Box, facts: set[Expr]) -> tuple[Box, dict[Expr, Expr]]:
    """The box, in which each of these facts that stands inside a rule or output has a rule of its own before it; and
    the signals of those."""
    rules: list[Rule | Output] = []
    named: dict[Expr, Expr] = {}
    for rule in box.rules:
        mine: list[Rule] = []
        expr = _outside(condition_of(rule), facts, mine)
        rules += mine
        rules.append(with_condition(rule, expr))
        named |= {each.expr: Signal(SignalKind.RULE, each.name) for each in mine}
    return replace(box, rules=tuple(rules)), named


def _outside(expr: Expr, facts: set[Expr], mine: list[Rule]) -> Expr:
    """The expression in which each of the facts is the name of a rule, added to `mine`."""

    def named(leaf: Expr) -> Expr:
        if not isinstance(leaf, Memory) or leaf not in facts:
            return leaf
        name = f"inside {leaf.key}"
        if all(rule.name != name for rule in mine):
            mine.append(Rule(name, "", leaf))
        return Signal(SignalKind.RULE, name)

    return replace_leaves(expr, named)
