"""One reaction of a vehicle in which parts may be broken: what each fault does where copper and box are read.

The world of such a vehicle holds, beside its own names, one bit for each fault and one number for each sense that may
hold its last value.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from logiccheck.lang.program import (
    Box,
    Compare,
    Const,
    Expr,
    Load,
    NumberSense,
    Output,
    Program,
    Signal,
    SignalKind,
    Source,
    WireSense,
)
from logiccheck.model.interpreter import Machine
from logiccheck.model.memory import Draft, Memory
from logiccheck.model.reaction import Reaction, Reactor, Values, World, _coil, _move
from logiccheck.model.truth import compare
from tests.oracle.broken.parts import Fault, Mode, Part, fused


class BrokenValues(Values):
    """The values of one reaction; `blown` are the loads whose fuse is open."""

    blown: frozenset[str] = frozenset()

    def holds(self, expr: Expr) -> bool:
        return self._leaf(expr) if isinstance(expr, Signal) else Values.holds(self, expr)

    def _leaf(self, leaf: Expr) -> bool:  # type: ignore[override]
        if isinstance(leaf, Signal) and leaf.kind is SignalKind.LIVE and leaf.said in self.blown:
            return False
        return Values._leaf(self, leaf)  # type: ignore[arg-type]


class BrokenReactor(Reactor):
    """Makes reactions in which those of `faults` are there whose bit in the world is 1."""

    def __init__(self, program: Program, faults: Iterable[Fault]) -> None:
        super().__init__(program)
        self.faults = tuple(faults)
        self.there: frozenset[Fault] = frozenset()
        self.fuses = {wire.name: fused(program, wire) for wire in program.wires}
        senses = program.box.senses if program.box else ()
        self.filtered = {x.filter.key: x for x in senses if isinstance(x, WireSense) and x.filter}

    def broken(self, part: Part, *modes: Mode) -> bool:
        return any(fault.is_part(part, *modes) for fault in self.there)

    def react(self, before: Memory, world: World, due: frozenset[str]) -> Reaction:
        """As on whole copper, but for what is broken."""
        self.there = frozenset(fault for fault in self.faults if world[fault.bit] == 1)
        values, draft = BrokenValues(world, self._known), Draft(before, due)
        values.blown = frozenset(fault.part.name for fault in self.there if isinstance(fault.part, Load))
        self._copper(values, before)
        coils = frozenset(relay.name for relay, nodes in self._coils if _coil(relay, nodes, values, draft))
        values.true -= {(SignalKind.OUTPUT, name) for name in before.outputs}
        if self.program.box:
            self._box(self.program.box, values, draft)
        memory = Memory(
            coils,
            values.named(SignalKind.OUTPUT),
            (SignalKind.POWERED, "powered") in values.true,
            frozenset(draft.operands),
            frozenset(draft.bits),
            frozenset(draft.clocks.items()),
        )
        return Reaction(values, memory)

    # ------------------------------------------------------------------------------------------------ copper

    def _copper(self, values: Values, before: Memory) -> None:
        program = self.program
        shut = {x.name for x in program.relays if x.name in before.coils or self.broken(x, Mode.WELDED)}
        values.note(SignalKind.RELAY, shut - {x.name for x in program.relays if self.broken(x, Mode.DEAD)})
        values.note(SignalKind.OUTPUT, before.outputs)
        sources = {x.name for x in program.sources if values.holds(x.condition) and not self.flat(x)}
        grounds = {x.name for x in program.grounds if values.holds(x.condition) and not self.broken(x, Mode.LOST)}
        values.note(SignalKind.SOURCE, sources)
        values.note(SignalKind.GROUND, grounds)
        both = self.both_ways(values)
        down = [(x.anode, x.cathode) for x in program.diodes if not self.broken(x, Mode.OPEN)]
        supplied = {wire for name, wire in self._feeding if name in before.outputs}
        if sources:
            supplied |= {x.name for x in program.wires if self.broken(x, Mode.LIVE)}
        earthed = {x.name for x in program.wires if self.broken(x, Mode.GROUNDED)}
        values.note(SignalKind.LIVE, self.spread(sources | supplied, both + down))
        values.note(SignalKind.GROUNDED, self.spread(grounds | earthed, both + [(b, a) for a, b in down]))

    def flat(self, source: Source) -> bool:
        """Whether a source is dead, or dips."""
        dips = (x for x in self.program.electrics.dips if x.source == source.name)
        return self.broken(source, Mode.DEAD) or any(self.broken(dip, Mode.DIP) for dip in dips)

    def both_ways(self, values: Values) -> list[tuple[str, str]]:
        """All that conducts both ways now, each way once."""
        ends = []
        for contact in self.program.contacts:
            closed = values.holds(contact.condition) or self.broken(contact, Mode.CLOSED)
            if closed and not self.broken(contact, Mode.OPEN) and not self.cut(contact):
                ends.append((contact.left, contact.right))
        ends += [(x.anode, x.cathode) for x in self.program.diodes if self.broken(x, Mode.SHORTED)]
        return ends + [(b, a) for a, b in ends]

    def cut(self, contact: object) -> bool:
        """Whether a fuse is open through which this connection feeds its wire."""
        blown = [x.name for x in self.program.wires if self.broken(x, Mode.FUSE)]
        return any(contact is own for name in blown for own in self.fuses[name])

    def spread(self, origins: set[str], ways: list[tuple[str, str]]) -> frozenset[str]:
        """The wires that are reached; nothing passes an open one, or an end."""
        usable = {x.name for x in self.program.wires if not self.broken(x, Mode.OPEN)}
        onward: defaultdict[str, set[str]] = defaultdict(set)
        for begin, end in ways:
            onward[begin].add(end)
        todo, reached = list(origins - self._wires), origins & usable
        todo += reached
        while todo:
            news = (onward[todo.pop()] & usable) - reached
            reached |= news
            todo += news
        return frozenset(reached)

    # --------------------------------------------------------------------------------------------------- box

    def _box(self, box: Box, values: Values, draft: Draft) -> None:
        super()._box(box, values, draft)
        for output in box.outputs:
            state = (SignalKind.OUTPUT, output.name)
            if self.broken(output, Mode.ON) and values.live(output.fed_by or box.feed):
                values.true.add(state)
            if self.broken(output, Mode.OFF, Mode.FUSE) or self.tripped(output, values, draft):
                values.true.discard(state)

    def tripped(self, output: Output, values: Values, draft: Draft) -> bool:
        """It trips in the reaction in which the fault comes, and stays so until the box is without power."""
        key = f"trip of {output.name}"
        if not self.broken(output, Mode.TRIPPED):
            return False
        draft.operands.add(key)
        powered = (SignalKind.POWERED, "powered") in values.true
        comes = key not in draft.before.operands
        return powered and draft.store(key, comes or key in draft.before.bits)

    def _senses(self, box: Box, values: Values, draft: Draft) -> None:
        for sense in box.senses:
            if isinstance(sense, NumberSense):
                values.numbers[sense.name] = self.number(sense, values.world)
        for node in self._filters.values():
            at = self.filtered.get(node.key)
            _move(replace(node, x=Const(self.wire(at, values))) if at else node, values, draft)
        for sense in box.senses:
            if isinstance(sense, NumberSense):
                self.lose(sense, values)
            elif self.sensed(sense, values):
                values.true.add((SignalKind.SENSE, sense.name))

    def sensed(self, sense: WireSense, values: Values) -> bool:
        """What a wire sense says in the end."""
        if self.broken(sense, Mode.LOST):
            assert sense.substitute is not None
            return sense.substitute
        return values.holds(sense.filter) if sense.filter else self.wire(sense, values)

    def wire(self, sense: WireSense, values: Values) -> bool:
        """What a wire sense says before its filter time."""
        if self.broken(sense, Mode.DEAD, Mode.LIVE, Mode.GROUNDED):
            return self.broken(sense, Mode.GROUNDED if sense.grounded else Mode.LIVE)
        return (SignalKind.GROUNDED, sense.wire) in values.true if sense.grounded else values.live(sense.wire)

    def number(self, sense: NumberSense, world: World) -> int | Fraction:
        """What a number sense says before its filter time."""
        number = next(x for x in self.program.numbers if x.name == sense.number)
        if self.broken(sense, Mode.LOW):
            return number.low
        if self.broken(sense, Mode.HIGH):
            return number.high
        for fault in self.there:
            if fault.is_part(sense, Mode.HOLDING):
                return world[fault.held]
        return world[sense.number]

    def lose(self, sense: NumberSense, values: Values) -> None:
        """A lost number reads its substitute, behind the filter time."""
        if not self.broken(sense, Mode.LOST):
            return
        assert sense.substitute is not None
        values.numbers[sense.name] = sense.substitute
        for node in self._filters.values():
            if isinstance(node.x, Compare) and node.x.sense and node.x.name == sense.name:
                values.nodes.discard(node.key)
                if compare(sense.substitute, node.x.op, node.x.bound):
                    values.nodes.add(node.key)


class BrokenMachine(Machine):
    """The interpreter of a vehicle in which `faults` may be there."""

    def __init__(self, program: Program, faults: Iterable[Fault]) -> None:
        self.program = program
        self._reactor = BrokenReactor(program, faults)
