"""One reaction: copper, coils, power, senses, then rules and outputs, all values as conditions."""

from __future__ import annotations

from logiccheck.audit.conditions import POWERED, Conditions
from logiccheck.audit.copper import reached, ways
from logiccheck.audit.gates import NO, YES, Lit
from logiccheck.audit.memory import Memory
from logiccheck.audit.traces import Look
from logiccheck.audit.world import World
from logiccheck.lang.program import (
    Box,
    Output,
    Previous,
    Program,
    Rule,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
)
from logiccheck.lang.walk import memory, program_expressions


class Reaction:
    """`values` holds every signal; what is left for the next reaction is in `look`."""

    def __init__(self, program: Program, world: World, look: Look, filters: list[Timer]) -> None:
        self.program, self.world, self.look, self.gates = program, world, look, look.gates
        self.filters = filters
        self.values: dict[tuple[SignalKind, str], Lit] = {}
        self.filtered: dict[str, Lit] = {}
        outputs = program.box.outputs if program.box is not None else ()
        self.on_before = {output.name: look.found(f"{output.name}.true") for output in outputs}
        self._copper()
        self._coils()
        self.values[POWERED] = NO
        if program.box is not None:
            self._box(program.box)
        for output in outputs:
            look.leave(f"{output.name}.true", self.values[SignalKind.OUTPUT, output.name])

    def _conditions(self, gate: Lit) -> Conditions:
        return Conditions(self.program, self.world, self.values, self.filtered, Memory(self.look, gate))

    def _copper(self) -> None:
        """Contacts are as the coils were, outputs as they were; sources, grounds and wires follow at once."""
        program, values = self.program, self.values
        for relay in program.relays:
            values[SignalKind.RELAY, relay.name] = self.look.found(f"{relay.name}.coil")
        conditions = self._conditions(YES)
        live = {source.name: conditions.holds(source.condition) for source in program.sources}
        grounds = {ground.name: conditions.holds(ground.condition) for ground in program.grounds}
        values.update({(SignalKind.SOURCE, name): lit for name, lit in live.items()})
        values.update({(SignalKind.GROUND, name): lit for name, lit in grounds.items()})
        closed = [conditions.holds(contact.condition) for contact in program.contacts]
        wires = [wire.name for wire in program.wires]
        for output in program.box.outputs if program.box is not None else ():
            if output.feeds in wires:
                live[output.feeds] = self.gates.either(live.get(output.feeds, NO), self.on_before[output.name])
        for wire, lit in reached(self.gates, wires, ways(program, closed, forward=True), live).items():
            values[SignalKind.LIVE, wire] = lit
        for wire, lit in reached(self.gates, wires, ways(program, closed, forward=False), grounds).items():
            values[SignalKind.GROUNDED, wire] = lit

    def _coils(self) -> None:
        """A coil sees the outputs as they were in the reaction before; it needs its supply in this one."""
        seen = self.values | {(SignalKind.OUTPUT, name): lit for name, lit in self.on_before.items()}
        for relay in self.program.relays:
            supply = YES if relay.supply is None else self._conditions(YES).holds(relay.supply)
            memory = Memory(self.look, supply)
            coil = Conditions(self.program, self.world, seen, self.filtered, memory).holds(relay.coil)
            self.look.leave(f"{relay.name}.coil", self.gates.both(supply, coil))

    def end(self, name: str, grounded: bool = False) -> Lit:
        """A wire or source is live; a wire or ground is grounded; anything else is not."""
        kinds = (SignalKind.GROUNDED, SignalKind.GROUND) if grounded else (SignalKind.LIVE, SignalKind.SOURCE)
        return next((self.values[kind, name] for kind in kinds if (kind, name) in self.values), NO)

    def _box(self, box: Box) -> None:
        powered = self.end(box.feed)
        if box.startup is not None:
            powered = self._conditions(YES).holds(box.startup)
        self.values[POWERED] = powered
        later: list[Previous] = []
        memory = Memory(self.look, powered)
        inside = Conditions(self.program, self.world, self.values, self.filtered, memory, later)
        self._senses(box, inside, powered)
        for rule in box.rules:
            self._conclude(rule, inside, powered)
        while later:
            node = later.pop()
            memory.remember(node, inside.holds(node.x))

    def _senses(self, box: Box, inside: Conditions, powered: Lit) -> None:
        for node in self.filters:
            self.filtered[node.key] = inside.holds(node)
        for sense in box.senses:
            if isinstance(sense, WireSense):
                raw = self.end(sense.wire, sense.grounded) if sense.filter is None else inside.holds(sense.filter)
                self.values[SignalKind.SENSE, sense.name] = self.gates.both(powered, raw)

    def _conclude(self, rule: Rule | Output, inside: Conditions, powered: Lit) -> None:
        if isinstance(rule, Rule):
            self.values[SignalKind.RULE, rule.name] = self.gates.both(powered, inside.holds(rule.expr))
            return
        command = self.gates.both(powered, inside.holds(rule.command))
        fed = YES if rule.fed_by is None else self.end(rule.fed_by)
        self.values[SignalKind.COMMAND, rule.name] = command
        self.values[SignalKind.OUTPUT, rule.name] = self.gates.both(command, fed)


def filters_of(program: Program) -> list[Timer]:
    """Every filter, of a wire sense or of a comparison, once each; wherever it is named it is the box's."""
    nodes = [node for expr in program_expressions(program) for node in memory(expr)]
    found = {node.key: node for node in nodes if isinstance(node, Timer) and node.kind is TimerKind.FILTER}
    return list(found.values())
