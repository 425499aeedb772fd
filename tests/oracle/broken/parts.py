"""What can break in a vehicle, how, and when: one fault is one part in one mode."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from logiccheck.lang.program import (
    Compare,
    Contact,
    Diode,
    Dip,
    Ground,
    Load,
    NumberSense,
    Output,
    Position,
    Program,
    Relay,
    Source,
    Wire,
    WireSense,
)
from tests.oracle.slices import walk

Part: TypeAlias = WireSense | NumberSense | Wire | Contact | Ground | Load | Output | Diode | Relay | Source | Dip


class Mode(Enum):
    DEAD = "dead"
    LIVE = "live"
    GROUNDED = "grounded"
    LOST = "lost"
    LOW = "low"
    HIGH = "high"
    HOLDING = "holding"
    OPEN = "open"
    CLOSED = "closed"
    FUSE = "fuse"  # of a wire, load or output: it is open
    SHORTED = "shorted"
    WELDED = "welded"
    ON = "on"
    OFF = "off"
    TRIPPED = "tripped"
    DIP = "dip"


class When(Enum):
    START = "start"  # from time 0 on, for ever
    LATER = "later"  # whole at time 0, then at some moment broken, for ever
    LOOSE = "loose"  # whole at time 0, comes and goes
    EVER = "ever"  # at some moment from time 0 on, for ever


@dataclass(frozen=True, eq=False)
class Fault:
    """`bit` is the name under which explorers have it among the world: 0 whole, 1 broken."""

    part: Part
    mode: Mode
    number: int

    @property
    def bit(self) -> str:
        return f"fault {self.number}"

    @property
    def held(self) -> str:
        """The name of the number that a sense holds."""
        return f"held {self.number}"

    @property
    def name(self) -> str:
        """For people who read a failing test."""
        match self.part:
            case Contact(left=left, right=right):
                where = f"contact {left}-{right}"
            case Diode(anode=anode, cathode=cathode):
                where = f"diode {anode}->{cathode}"
            case Dip(source=source):
                where = f"dip of {source}"
            case part:
                where = f"{type(part).__name__.lower()} {part.name}"
        return f"{where}: {self.mode.value}"

    def is_part(self, part: Part, *modes: Mode) -> bool:
        """Whether it is this part, in one of these modes; what has a name may have been cut since."""
        if self.mode not in modes or type(part) is not type(self.part):
            return False
        if isinstance(part, Contact | Diode | Dip) or isinstance(self.part, Contact | Diode | Dip):
            return self.part is part
        return self.part.name == part.name


def whens(fault: Fault) -> tuple[When, ...]:
    """When this fault is asked for."""
    match fault.mode:
        case Mode.DIP:
            return (When.LOOSE,)
        case Mode.TRIPPED:
            return (When.LATER,)
        case _:
            return (When.START, When.LATER, When.LOOSE)


def names_world(contact: Contact) -> bool:
    """Whether it is a switch in somebody's hands, and not only the contact of a relay, or a joint."""
    return any(isinstance(x, Position) or (isinstance(x, Compare) and not x.sense) for x in walk(contact.condition))


def fused(program: Program, wire: Wire) -> tuple[Contact, ...]:
    """The connections of a wire by which it is fed: written in its own item, and to no ground."""
    grounds = {ground.name for ground in program.grounds}
    return tuple(
        contact
        for contact in program.contacts
        if contact.right == wire.name
        and contact.left not in grounds
        and wire.span.begin <= contact.span.begin < contact.span.end <= wire.span.end
    )


def modes(program: Program) -> Iterator[tuple[Part, Mode]]:
    """Every part that can break, with each of its modes."""
    for sense in program.box.senses if program.box else ():
        if isinstance(sense, WireSense):
            yield from ((sense, mode) for mode in (Mode.DEAD, Mode.LIVE, Mode.GROUNDED))
        else:
            yield from ((sense, mode) for mode in (Mode.LOW, Mode.HIGH, Mode.HOLDING))
        if sense.substitute is not None:
            yield sense, Mode.LOST
    for wire in program.wires:
        yield from ((wire, mode) for mode in (Mode.OPEN, Mode.LIVE, Mode.GROUNDED))
        if wire.electrical.fuse is not None:
            yield wire, Mode.FUSE
    for contact in program.contacts:
        if names_world(contact):
            yield from ((contact, mode) for mode in (Mode.CLOSED, Mode.OPEN))
    used = {end for contact in program.contacts for end in (contact.left, contact.right)}
    used |= {end for diode in program.diodes for end in (diode.anode, diode.cathode)}
    for ground in program.grounds:
        if ground.name != "ground" or ground.name in used:
            yield ground, Mode.LOST
    yield from ((load, Mode.FUSE) for load in program.loads if load.electrical.fuse is not None)
    yield from ((diode, mode) for diode in program.diodes for mode in (Mode.OPEN, Mode.SHORTED))
    yield from ((relay, mode) for relay in program.relays for mode in (Mode.WELDED, Mode.DEAD))
    for output in program.box.outputs if program.box else ():
        yield from ((output, mode) for mode in (Mode.ON, Mode.OFF, Mode.TRIPPED))
        if output.electrical.fuse is not None:
            yield output, Mode.FUSE
    yield from ((source, Mode.DEAD) for source in program.sources)
    yield from ((dip, Mode.DIP) for dip in program.electrics.dips)


def faults_of(program: Program) -> tuple[Fault, ...]:
    """All single faults."""
    return tuple(Fault(part, mode, number) for number, (part, mode) in enumerate(modes(program)))
