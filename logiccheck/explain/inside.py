"""Which signals are looked into and which are facts, and the terms in the lines that are looked into, nearest first.

Inside the box rules and commands are looked into; a sense is a fact. In copper wires, sources and grounds are looked
into; a relay contact, an output and what supplies a relay are facts. What remembers is always a fact.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.base.spread import spread
from logiccheck.explain.deciding import each_leaf
from logiccheck.lang.program import Contact, Expr, Output, Program, Rule, Signal, SignalKind, WireSense
from logiccheck.lang.walk import condition_of
from logiccheck.model.truth import Leaf

POWERED = Signal(SignalKind.POWERED, "powered")
WIRES = (SignalKind.LIVE, SignalKind.GROUNDED)
COPPER = (*WIRES, SignalKind.SOURCE, SignalKind.GROUND)
BOX = (SignalKind.RULE, SignalKind.COMMAND)


@frozen
class Step:
    """A way for current from the end `tail` to the wire that is looked at, while `condition` (None: always) holds."""

    tail: Signal
    condition: Expr | None


@frozen
class Term:
    """A fact as it is written once; `depth` lines lie between it and what is asked.

    `via` is the term of the line asked about that leads to it, and `root` counts these terms.
    """

    leaf: Leaf
    depth: int
    root: int
    via: Span


class Inside:
    """The signals that are looked into: those that are asked about (`opened`), and what they lead to.

    `copper`: they are of copper; else of the box.
    """

    def __init__(self, program: Program, opened: frozenset[Signal], copper: bool) -> None:
        self.program, self.opened, self.copper = program, opened, copper
        box = program.box
        self.sources = {source.name: source for source in program.sources}
        self.grounds = {ground.name: ground for ground in program.grounds}
        self.relays = {relay.name: relay for relay in program.relays}
        self.senses = {s.name: s for s in (box.senses if box else ()) if isinstance(s, WireSense)}
        self.rules: dict[str, Rule | Output] = {rule.name: rule for rule in (box.rules if box else ())}
        supplies = [relay.supply for relay in program.relays if Signal(SignalKind.RELAY, relay.name) in opened]
        self.closed = frozenset(supply for supply in supplies if isinstance(supply, Signal))
        self._last: dict[Signal, list[Step]] = {}  # to each wire
        self._steps: dict[Signal, list[Step]] = {}  # of these, those on a way to it
        self._contacts: dict[str, list[Contact]] = {}
        for contact in program.contacts:
            for end in {contact.left, contact.right}:
                self._contacts.setdefault(end, []).append(contact)

    def opens(self, leaf: Leaf) -> bool:
        """Whether it is looked into. A relay is only from outside: in its own coil its contact is a fact."""
        if not isinstance(leaf, Signal) or leaf.kind is SignalKind.RELAY:
            return False
        inside = leaf.kind in (COPPER if self.copper else BOX) and leaf not in self.closed
        return inside or leaf in self.opened

    def end(self, name: str, grounded: bool) -> Signal:
        """The wire being live or grounded, or the source or ground of that name being on."""
        if grounded:
            return Signal(SignalKind.GROUND if name in self.grounds else SignalKind.GROUNDED, name)
        return Signal(SignalKind.SOURCE if name in self.sources else SignalKind.LIVE, name)

    def steps(self, wire: Signal) -> list[Step]:
        """All last steps on the way to a wire that is live or grounded, in the order of the file: from ends that it can
        reach without passing this wire, and thus from no ground on the way to a live one.
        """
        if wire not in self._steps:
            found = self._last_steps(wire)
            able = self._able(wire) if any(step.tail.kind is wire.kind for step in found) else set()
            self._steps[wire] = [step for step in found if step.tail.kind is not wire.kind or step.tail in able]
        return self._steps[wire]

    def _able(self, barred: Signal) -> set[Signal]:
        """The wires that it can reach, were all contacts closed, without passing the one that is barred; beside what
        it comes from."""
        wires = [Signal(barred.kind, wire.name) for wire in self.program.wires if wire.name != barred.name]
        ways = [(step.tail, wire) for wire in wires for step in self._last_steps(wire)]
        return spread((tail for tail, _ in ways if tail.kind is not barred.kind), ways)

    def _last_steps(self, wire: Signal) -> list[Step]:
        if wire not in self._last:
            self._last[wire] = list(self._leading_to(wire))
        return self._last[wire]

    def _leading_to(self, wire: Signal) -> Iterator[Step]:
        grounded = wire.kind is SignalKind.GROUNDED
        for contact in self._contacts.get(wire.name, ()):
            tail = contact.left if contact.right == wire.name else contact.right
            yield Step(self.end(tail, grounded), contact.condition)
        for diode in self.program.diodes:
            tail, head = (diode.cathode, diode.anode) if grounded else (diode.anode, diode.cathode)
            if head == wire.name:
                yield Step(self.end(tail, grounded), None)
        for output in self.program.box.outputs if self.program.box and not grounded else ():
            if output.feeds == wire.name:
                yield Step(Signal(SignalKind.OUTPUT, output.name), None)

    def parts(self, signal: Signal) -> tuple[Expr, ...]:
        """What a signal that is looked into is made of; of all but wires, everything of it has to hold."""
        match signal.kind:
            case SignalKind.LIVE | SignalKind.GROUNDED:
                return _there(*(part for step in self.steps(signal) for part in (step.condition, step.tail)))
            case SignalKind.SOURCE:
                return (self.sources[signal.name].condition,)
            case SignalKind.GROUND:
                return (self.grounds[signal.name].condition,)
            case SignalKind.RELAY:
                return _there(self.relays[signal.name].supply, self.relays[signal.name].coil)
            case SignalKind.POWERED:
                assert self.program.box is not None
                return _there(self.end(self.program.box.feed, False), self.program.box.startup)
            case SignalKind.SENSE:
                sense = self.senses[signal.name]
                return (POWERED, sense.filter or self.end(sense.wire, sense.grounded))
            case SignalKind.RULE | SignalKind.COMMAND | SignalKind.OUTPUT:
                rule = self.rules[signal.name]
                says = condition_of(rule)
                fed = rule.fed_by if isinstance(rule, Output) and signal.kind is SignalKind.OUTPUT else None
                return _there(POWERED, says, self.end(fed, False) if fed is not None else None)
            case _:
                assert_never(signal.kind)

    def terms(self, expr: Expr) -> Iterator[Term]:
        """Every fact that the expression hangs on, as often as it is written, nearest first, then as written.

        The start-up delay comes last: it only waits for the supply.
        """
        startup = self.program.box.startup if self.program.box else None
        delays: list[Term] = []
        asked = self.parts(expr) if isinstance(expr, Signal) and expr in self.opened else (expr,)
        lines: list[tuple[Expr, int, Term | None]] = [(part, 0, None) for part in asked]
        seen: set[Signal] = set()
        roots = count()
        while lines:
            line, depth, begun = lines.pop(0)
            for leaf in each_leaf(line):
                term = Term(leaf, depth, *((next(roots), leaf.span) if begun is None else (begun.root, begun.via)))
                if leaf == startup:
                    delays.append(term)
                elif not (isinstance(leaf, Signal) and self.opens(leaf)):
                    yield term
                elif leaf not in seen:
                    seen.add(leaf)
                    near = leaf in self.opened
                    lines += [(part, depth if near else depth + 1, None if near else term) for part in self.parts(leaf)]
        yield from delays


def _there(*parts: Expr | None) -> tuple[Expr, ...]:
    return tuple(part for part in parts if part is not None)
