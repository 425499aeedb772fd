"""Which signals are looked into and which are facts, and the terms in the lines that are looked into, nearest first.

Inside the box rules and commands are looked into; a sense is a fact. In copper wires, sources and grounds are looked
into; a relay contact, an output and what supplies a relay are facts. What remembers is always a fact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import assert_never

from logiccheck.explain.deciding import each_leaf
from logiccheck.lang.program import Contact, Expr, Output, Program, Rule, Signal, SignalKind, WireSense
from logiccheck.model.truth import Leaf

POWERED = Signal(SignalKind.POWERED, "powered")
WIRES = (SignalKind.LIVE, SignalKind.GROUNDED)
COPPER = (*WIRES, SignalKind.SOURCE, SignalKind.GROUND)
BOX = (SignalKind.RULE, SignalKind.COMMAND)


@dataclass(frozen=True, slots=True)
class Step:
    """A way for current from the end `tail` to the wire that is looked at, while `condition` (None: always) holds."""

    tail: Signal
    condition: Expr | None


@dataclass(frozen=True, slots=True)
class Term:
    """A fact as it is written once; `depth` lines lie between it and what is asked."""

    leaf: Leaf
    depth: int


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

    def steps(self, wire: Signal) -> Iterator[Step]:
        """All last steps on the way to a wire that is live or grounded, in the order of the file."""
        grounded = wire.kind is SignalKind.GROUNDED
        others = self.sources if grounded else self.grounds
        for contact in self._contacts.get(wire.name, ()):
            tail = contact.left if contact.right == wire.name else contact.right
            if tail not in others:
                yield Step(self.end(tail, grounded), contact.condition)
        for diode in self.program.diodes:
            tail, head = (diode.cathode, diode.anode) if grounded else (diode.anode, diode.cathode)
            if head == wire.name and tail not in others:
                yield Step(self.end(tail, grounded), None)
        for output in self.program.box.outputs if self.program.box and not grounded else ():
            if output.feeds == wire.name:
                yield Step(Signal(SignalKind.OUTPUT, output.name), None)

    def parts(self, signal: Signal) -> tuple[Expr, ...]:
        """What a signal that is looked into is made of; of all but wires, everything of it has to hold."""
        match signal.kind:
            case SignalKind.LIVE | SignalKind.GROUNDED:
                steps = list(self.steps(signal))
                return tuple(part for step in steps for part in (step.condition, step.tail) if part is not None)
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
                says = rule.expr if isinstance(rule, Rule) else rule.command
                fed = rule.fed_by if isinstance(rule, Output) and signal.kind is SignalKind.OUTPUT else None
                return _there(POWERED, says, self.end(fed, False) if fed is not None else None)
            case _:
                assert_never(signal.kind)

    def terms(self, expr: Expr) -> Iterator[Term]:
        """Every fact that the expression hangs on, as often as it is written, nearest first, then as written."""
        asked = isinstance(expr, Signal) and expr in self.opened
        lines = [(part, 0) for part in (self.parts(expr) if asked and isinstance(expr, Signal) else (expr,))]
        seen: set[Signal] = set()
        while lines:
            line, depth = lines.pop(0)
            for leaf in each_leaf(line):
                if not (isinstance(leaf, Signal) and self.opens(leaf)):
                    yield Term(leaf, depth)
                elif leaf not in seen:
                    seen.add(leaf)
                    down = depth if leaf in self.opened else depth + 1
                    lines += [(part, down) for part in self.parts(leaf)]


def _there(*parts: Expr | None) -> tuple[Expr, ...]:
    return tuple(part for part in parts if part is not None)
