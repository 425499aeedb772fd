"""What can break in a vehicle: each part of its copper, and each way in which that part fails, as one fault."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.lang.program import (
    Compare,
    Contact,
    Expr,
    Load,
    NumberSense,
    Output,
    Position,
    Program,
    Wire,
    WireSense,
)
from logiccheck.lang.walk import references

GOOD_GROUND = "ground"  # the one that is always there


class PartKind(Enum):
    """What kind of thing a part is; the value is how people call it."""

    SOURCE = "source"
    GROUND = "ground"
    WIRE = "wire"
    CONTACT = "switch"  # one connection of copper that the world closes and opens
    FUSE = "fuse"
    DIODE = "diode"
    RELAY = "relay"
    SENSE = "sense"  # what the box reads from a wire
    NUMBER = "sensor"  # what the box reads as a number
    OUTPUT = "output"


class Mode(Enum):
    """How a part fails; the value is how people call it."""

    DEAD = "dead"  # a sense reads neither live nor grounded; a source is not live; the contact of a relay stays open
    LIVE = "live"  # shorted to supply
    GROUNDED = "grounded"  # shorted to ground
    LOST = "lost"  # a sense reads its substitute; a ground is none any more
    LOW = "low"
    HIGH = "high"
    HOLDING = "holding"
    OPEN = "open"
    STUCK_CLOSED = "stuck closed"
    STUCK_OPEN = "stuck open"
    SHORTED = "shorted"
    WELDED = "welded"
    STUCK_ON = "stuck on"
    STUCK_OFF = "stuck off"
    TRIPPED = "tripped"
    DIPPED = "dipped"  # the supply fell too low, for a while


class When(Enum):
    """When a fault is there."""

    START = "start"  # from time 0 on, for ever
    LATER = "later"  # not at time 0, from some moment on for ever
    LOOSE = "loose"  # not at time 0, then it comes and goes
    SOMETIME = "sometime"  # from some moment on for ever, which may be time 0


EACH_WHEN = (When.START, When.LATER, When.LOOSE)  # in this order a failure is told


@frozen
class Fault:
    """One way in which one part fails.

    `part` is the declared name, or says which it is ("fuse of pump", "switch of door_wire", "diode a -> b"); no two
    parts of a vehicle have the same. `index`: which in its list of the program (contacts, diodes, dips; of a fuse of
    nothing else); `of` is the declared name of the thing it belongs to, empty for diodes and joins.
    """

    part: str
    kind: PartKind
    mode: Mode
    label: str  # of the part, for people; empty where nobody gave one
    of: str = ""
    index: int = 0
    span: Span = NOWHERE

    @property
    def id(self) -> str:
        """Stable under reordering of the file: "key_wire open"."""
        return f"{self.part} {self.mode.value}"

    @property
    def title(self) -> str:
        """What it is, for people: "Wire key_wire", "Switch of door_wire", "Diode a -> b"."""
        told = self.kind.value if self.part == self.of or self.mode is Mode.DIPPED else ""
        words = f"{told} {self.part}" if told else self.part
        return words[0].upper() + words[1:]

    @property
    def whens(self) -> tuple[When, ...]:
        """When it can be there. What comes back by itself is asked in its own manner alone."""
        if self.mode is Mode.DIPPED:
            return (When.LOOSE,)
        return (When.LATER,) if self.mode is Mode.TRIPPED else EACH_WHEN


def faults_of(program: Program) -> tuple[Fault, ...]:
    """All single faults of a vehicle, in the order of the file."""
    found = [fault for make in _MAKERS for fault in make(program)]
    files = list(dict.fromkeys(fault.span.file for fault in found))
    return tuple(sorted(found, key=lambda fault: (files.index(fault.span.file), fault.span.begin)))


def is_own(contact: Contact, wire: Wire) -> bool:
    """Whether the connection is written at this wire."""
    inside = wire.span.begin <= contact.span.begin and contact.span.end <= wire.span.end
    return contact.right == wire.name and contact.span.file == wire.span.file and inside


def in_coils(program: Program) -> dict[str, list[str]]:
    """The switches and numbers of the world that coils of relays name, each with these relays: what they do there is
    no connection of copper, and so no part that could stick."""
    found: dict[str, list[str]] = {}
    for relay in program.relays:
        named = (leaf.name for leaf in references(relay.coil) if isinstance(leaf, Position | Compare))
        for name in dict.fromkeys(named):
            found.setdefault(name, []).append(relay.name)
    return found


def names_world(expr: Expr) -> bool:
    return any(isinstance(leaf, Position | Compare) for leaf in references(expr))


# ------------------------------------------------------------------------------------------------------------ makers


def _ends(program: Program) -> Iterator[Fault]:
    for source in program.sources:
        yield Fault(source.name, PartKind.SOURCE, Mode.DEAD, source.label, source.name, span=source.span)
    used = {end for contact in program.contacts for end in (contact.left, contact.right)}
    used |= {end for diode in program.diodes for end in (diode.anode, diode.cathode)}
    for ground in program.grounds:
        if ground.name != GOOD_GROUND or ground.name in used:
            yield Fault(ground.name, PartKind.GROUND, Mode.LOST, ground.label, ground.name, span=ground.span)


def _dips(program: Program) -> Iterator[Fault]:
    for index, dip in enumerate(program.electrics.dips):
        label = next((each.label for each in program.sources if each.name == dip.source), "")
        earlier = sum(each.source == dip.source for each in program.electrics.dips[:index])
        part = dip.source if not earlier else f"{dip.source}, number {earlier + 1}"
        yield Fault(part, PartKind.SOURCE, Mode.DIPPED, label, dip.source, index, dip.span)


def _wires(program: Program) -> Iterator[Fault]:
    for wire in program.wires:
        for mode in (Mode.OPEN, Mode.LIVE, Mode.GROUNDED):
            yield Fault(wire.name, PartKind.WIRE, mode, wire.label, wire.name, span=wire.span)


def _contacts(program: Program) -> Iterator[Fault]:
    seen: Counter[str] = Counter()
    for index, contact in enumerate(program.contacts):
        if not names_world(contact.condition):
            continue
        owner = next((wire for wire in program.wires if is_own(contact, wire)), None)
        part = f"switch of {owner.name}" if owner else f"switch between {contact.left} and {contact.right}"
        seen[part] += 1
        if seen[part] > 1:
            part += f", number {seen[part]}"
        label, of = (owner.label, owner.name) if owner else ("", "")
        for mode in (Mode.STUCK_CLOSED, Mode.STUCK_OPEN):
            yield Fault(part, PartKind.CONTACT, mode, label, of, index, contact.span)


def _fuses(program: Program) -> Iterator[Fault]:
    outputs = program.box.outputs if program.box is not None else ()
    fused: tuple[Wire | Load | Output, ...] = (*program.wires, *program.loads, *outputs)
    for each in fused:
        if each.electrical.fuse is not None:
            part = f"fuse of {each.name}"
            yield Fault(part, PartKind.FUSE, Mode.OPEN, each.label, each.name, span=each.span)


def _diodes(program: Program) -> Iterator[Fault]:
    seen: Counter[str] = Counter()
    for index, diode in enumerate(program.diodes):
        part = f"diode {diode.anode} -> {diode.cathode}"
        seen[part] += 1
        if seen[part] > 1:
            part += f", number {seen[part]}"
        for mode in (Mode.OPEN, Mode.SHORTED):
            yield Fault(part, PartKind.DIODE, mode, "", "", index, diode.span)


def _relays(program: Program) -> Iterator[Fault]:
    for relay in program.relays:
        for mode in (Mode.WELDED, Mode.DEAD):
            yield Fault(relay.name, PartKind.RELAY, mode, relay.label, relay.name, span=relay.span)


def _senses(program: Program) -> Iterator[Fault]:
    for sense in program.box.senses if program.box is not None else ():
        match sense:
            case WireSense():
                kind, modes = PartKind.SENSE, [Mode.DEAD, Mode.LIVE, Mode.GROUNDED]
            case NumberSense():
                kind, modes = PartKind.NUMBER, [Mode.LOW, Mode.HIGH, Mode.HOLDING]
        if sense.substitute is not None:
            modes.append(Mode.LOST)
        for mode in modes:
            yield Fault(sense.name, kind, mode, sense.label, sense.name, span=sense.span)


def _outputs(program: Program) -> Iterator[Fault]:
    for output in program.box.outputs if program.box is not None else ():
        for mode in (Mode.STUCK_ON, Mode.STUCK_OFF, Mode.TRIPPED):
            yield Fault(output.name, PartKind.OUTPUT, mode, output.label, output.name, span=output.span)


_MAKERS = (_ends, _dips, _wires, _contacts, _fuses, _diodes, _relays, _senses, _outputs)
