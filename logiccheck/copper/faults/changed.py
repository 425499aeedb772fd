"""The vehicle in which something can break: only copper changes, and what senses read; rules stay as they are.

It is a vehicle like any other, with a few items more whose names nobody can write: switches of the world by which
faults come (`there.py`), and wires, sources and relays that are no parts, but say what the faults do:

- Who names a relay, an output, a sense or a load reads what the fault makes of it (`reading.py`).
- A wire that can be open lets nothing pass: its contacts are open then. A diode, and an output that feeds a wire, reach
  it over a contact of their own, which can be open, too.
- A wire shorted to supply hangs on a source that is live whenever any source of the vehicle is.
- An output whose stage can be off is fed by something that can be dead. Whether the box lost its power since the stage
  tripped is seen from its feed by a relay that is always supplied.
- An output that is stuck on shows in what it feeds one reaction later, as outputs do: a relay carries that over.
- What a sensor holds are the values of all comparisons that are made with it, each held by a relay.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from logiccheck.copper.faults.parts import Fault, Mode, PartKind, When, is_own
from logiccheck.copper.faults.reading import UNDER_WAY, Reading, altered, both, either, reset, stage, stuck
from logiccheck.copper.faults.there import Each, OneOf, There
from logiccheck.lang.program import (
    And,
    Box,
    Const,
    Contact,
    Diode,
    Expr,
    Ground,
    Not,
    NumberSense,
    Or,
    Output,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Source,
    Wire,
    WireSense,
)
from logiccheck.lang.rebuild import with_condition
from logiccheck.lang.resolve.bounds import with_bounds
from logiccheck.lang.walk import condition_of

SUPPLY = "any supply"  # live whenever any source of the vehicle is
BODY = "bare metal"  # what a wire touches that is shorted to ground
STAGES = "inside the box"  # where outputs that are stuck on get what they pass on

Item = tuple[SignalKind, str]


def changed(program: Program, faults: Iterable[Fault]) -> Program:
    """The vehicle in which one of these faults is there, in one of its manners: `OneOf` says by which switches."""
    return _Builder(program, OneOf(tuple(faults))).built()


def together(program: Program, faults: Iterable[Fault], when: When = When.SOMETIME) -> Program:
    """The vehicle in which all of these faults are there, each in this manner by a switch of its own, called by the id
    of the fault; a fault that comes back by itself is there in its own manner."""
    return _Builder(program, Each(tuple(faults), when)).built()


def read_as(program: Program, faults: Iterable[Fault], when: When = When.SOMETIME) -> Mapping[Item, Expr]:
    """For what is no longer what its own line says in `together`: the condition, of that vehicle, that says what it is.
    A load is named as a wire is, by its own name."""
    reading = Reading(program, Each(tuple(faults), when))
    box = program.box
    signals = [Signal(SignalKind.RELAY, relay.name) for relay in program.relays]
    signals += [Signal(SignalKind.OUTPUT, output.name) for output in (box.outputs if box else ())]
    signals += [
        Signal(SignalKind.SENSE, sense.name) for sense in (box.senses if box else ()) if isinstance(sense, WireSense)
    ]
    found: dict[Item, Expr] = {(signal.kind, signal.name): reading.seen(signal) for signal in signals}
    for load in program.loads:
        found[SignalKind.LIVE, load.name] = reading.seen(Signal(SignalKind.LIVE, load.wire, said=load.name))
    return {item: expr for item, expr in found.items() if not isinstance(expr, Signal)}


@dataclass(slots=True)
class _Builder:
    """Parts that are added on the way are collected in the lists."""

    program: Program
    there: There
    reading: Reading = field(init=False)
    sources: list[Source] = field(default_factory=list)
    wires: list[Wire] = field(default_factory=list)
    contacts: list[Contact] = field(default_factory=list)
    relays: list[Relay] = field(default_factory=list)
    grounds: list[Ground] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.reading = Reading(self.program, self.there)

    def built(self) -> Program:
        program, reading = self.program, self.reading
        sources = tuple(self._source(source) for source in program.sources)
        grounds = tuple(self._ground(ground) for ground in program.grounds)
        contacts = tuple(self._contact(number, each) for number, each in enumerate(program.contacts))
        diodes = tuple(self._diode(number, each) for number, each in enumerate(program.diodes))
        relays = tuple(self._relay(relay) for relay in program.relays)
        box = self._box(program.box) if program.box is not None else None
        requirements = tuple(replace(each, form=reading.said(each.form)) for each in program.requirements)
        givens = tuple(reading.said(given) for given in program.givens)
        electrics = replace(
            program.electrics,
            dips=tuple(reading.said(dip) for dip in program.electrics.dips),
            tell_tales=tuple(reading.said(each) for each in program.electrics.tell_tales),
        )
        self._shorted(sources)
        self._hold()
        return with_bounds(
            replace(
                program,
                switches=(*program.switches, *self.there.switches),
                at_first=(*program.at_first, *self.there.at_first),
                sources=(*sources, *self.sources),
                grounds=(*grounds, *self.grounds),
                wires=(*program.wires, *self.wires),
                contacts=(*contacts, *self.contacts),
                diodes=diodes,
                relays=(*relays, *self.relays),
                box=box,
                givens=(*givens, *self.there.givens(electrics.dips)),
                requirements=requirements,
                scenarios=(),
                accepted=(),
                electrics=electrics,
            )
        )

    # ------------------------------------------------------------------------------------------------------- copper

    def _source(self, source: Source) -> Source:
        dead = self.reading.broken(source.name, PartKind.SOURCE, Mode.DEAD, Mode.DIPPED)
        return replace(source, condition=altered(self.reading.copper(source.condition), None, dead))

    def _ground(self, ground: Ground) -> Ground:
        lost = self.reading.broken(ground.name, PartKind.GROUND, Mode.LOST)
        return replace(ground, condition=altered(self.reading.copper(ground.condition), None, lost))

    def _opened(self, *ends: str) -> list[Fault]:
        """With these faults one of these wires lets nothing pass."""
        return [fault for end in dict.fromkeys(ends) for fault in self.reading.faults(end, PartKind.WIRE, Mode.OPEN)]

    def _contact(self, number: int, contact: Contact) -> Contact:
        reading, any_ = self.reading, self.there.any
        opened = self._opened(contact.left, contact.right)
        opened += reading.faults_at(PartKind.CONTACT, number, Mode.STUCK_OPEN)
        opened += [fault for wire in self._fused(contact) for fault in reading.faults(wire, PartKind.FUSE, Mode.OPEN)]
        closed = any_(reading.faults_at(PartKind.CONTACT, number, Mode.STUCK_CLOSED))
        condition = either(reading.copper(contact.condition), closed)
        assert condition is not None
        return replace(contact, condition=altered(condition, None, any_(opened)))

    def _fused(self, contact: Contact) -> Iterator[str]:
        """The wires whose own fuse the connection goes through."""
        if all(ground.name != contact.left for ground in self.program.grounds):
            yield from (wire.name for wire in self.program.wires if is_own(contact, wire))

    def _diode(self, number: int, diode: Diode) -> Diode:
        """Between anode and cathode there may have to be a contact, behind the diode."""
        reading, any_ = self.reading, self.there.any
        cut = self._opened(diode.anode, diode.cathode)
        opened = any_([*cut, *reading.faults_at(PartKind.DIODE, number, Mode.OPEN)])
        shorted = any_(reading.faults_at(PartKind.DIODE, number, Mode.SHORTED))
        if shorted is not None:
            passes = altered(shorted, None, any_(cut))
            self.contacts.append(Contact(diode.anode, diode.cathode, passes, diode.span))
        if opened is None:
            return diode
        behind = self._wire(f"behind {diode.anode} -> {diode.cathode}, number {number + 1}")
        self.contacts.append(Contact(behind, diode.cathode, Not(opened), diode.span))
        return replace(diode, cathode=behind)

    def _wire(self, name: str) -> str:
        self.wires.append(Wire(name, ""))
        return name

    def _relay(self, relay: Relay) -> Relay:
        supply = self.reading.copper(relay.supply) if relay.supply is not None else None
        return replace(relay, coil=self.reading.copper(relay.coil), supply=supply)

    def _shorted(self, sources: tuple[Source, ...]) -> None:
        """Contacts of wires with supply, and with ground."""
        modes = {SUPPLY: Mode.LIVE, BODY: Mode.GROUNDED}
        for end, mode in modes.items():
            known = len(self.contacts)
            for wire in self.program.wires:
                there = self.reading.broken(wire.name, PartKind.WIRE, mode)
                if there is not None:
                    opened = self.there.any(self._opened(wire.name))
                    self.contacts.append(Contact(end, wire.name, altered(there, None, opened), wire.span))
            if len(self.contacts) > known and end == SUPPLY:
                live = either(*(source.condition for source in sources))
                self.sources.append(Source(SUPPLY, "", live if live is not None else Const(False)))
            elif len(self.contacts) > known:
                self.grounds.append(Ground(BODY, "", Const(True)))

    # ---------------------------------------------------------------------------------------------------------- box

    def _box(self, box: Box) -> Box:
        senses = tuple(self._sense(sense) for sense in box.senses)
        rules = tuple(self._rule(box, rule) for rule in box.rules)
        return replace(box, senses=senses, rules=rules)

    def _sense(self, sense: WireSense | NumberSense) -> WireSense | NumberSense:
        """What is wrong with a wire shows after the filter time, as everything does."""
        if isinstance(sense, NumberSense) or sense.filter is None:
            return sense
        return replace(sense, filter=replace(sense.filter, x=altered(sense.filter.x, *self.reading.at_wire(sense))))

    def _rule(self, box: Box, rule: Rule | Output) -> Rule | Output:
        read = with_condition(rule, self.reading.box(condition_of(rule)))
        if isinstance(read, Rule):
            return read
        self._trips(box, read)
        self._passes_on(read)
        return replace(read, fed_by=self._fed(read), feeds=self._feeding(read))

    def _fed(self, output: Output) -> str | None:
        """What has to be live for the output to be on."""
        off = self.reading.off(output.name)
        if off is None:
            return output.fed_by
        if output.fed_by is None:
            self.sources.append(Source(stage(output.name), "", Not(off)))
            return stage(output.name)
        self.contacts.append(Contact(output.fed_by, self._wire(stage(output.name)), Not(off), output.span))
        return stage(output.name)

    def _feeding(self, output: Output) -> str | None:
        """The wire that it makes live, which may be open."""
        opened = self.there.any(self._opened(output.feeds)) if output.feeds is not None else None
        if output.feeds is None or opened is None:
            return output.feeds
        end = self._wire(f"end of {output.name}")
        self.contacts.append(Contact(end, output.feeds, Not(opened), output.span))
        return end

    def _trips(self, box: Box, output: Output) -> None:
        tripped = self.reading.broken(output.name, PartKind.OUTPUT, Mode.TRIPPED)
        if tripped is not None:
            own = Signal(SignalKind.RELAY, reset(output.name))
            coil = And((tripped, Or((Not(self.reading.live(box.feed)), own))))
            self.relays.append(Relay(reset(output.name), "", coil, None))

    def _passes_on(self, output: Output) -> None:
        """An output that is stuck on, as copper sees it."""
        on = self.reading.stuck_on(output.name)
        if on is None:
            return
        self.relays.append(Relay(stuck(output.name), "", on, None))
        if output.feeds is not None:
            opened = self.there.any(self._opened(output.feeds))
            closed = altered(Signal(SignalKind.RELAY, stuck(output.name)), None, opened)
            self.contacts.append(Contact(STAGES, output.feeds, closed, output.span))
            if all(source.name != STAGES for source in self.sources):
                self.sources.append(Source(STAGES, "", Const(True)))

    def _hold(self) -> None:
        """What sensors hold: each comparison is as it was, as long as it is held, else as it is."""
        for name, compared in self.reading.held.items():
            now = self.reading.number(compared)
            holding = self.reading.holding(compared.name)
            own = Signal(SignalKind.RELAY, name)
            self.relays.append(Relay(name, "", altered(now, both(holding, own), holding), None))
        if self.reading.held:
            self.relays.append(Relay(UNDER_WAY, "", Const(True), None))
