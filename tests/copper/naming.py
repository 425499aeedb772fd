"""Which fault of the explorer is which of the checker."""

from __future__ import annotations

from collections.abc import Iterable

from logiccheck.copper.faults import parts as ours
from logiccheck.lang.program import Contact, Diode, Dip, Program
from tests.oracle.broken import parts as theirs

MODES = {
    theirs.Mode.CLOSED: ours.Mode.STUCK_CLOSED,
    theirs.Mode.FUSE: ours.Mode.OPEN,
    theirs.Mode.ON: ours.Mode.STUCK_ON,
    theirs.Mode.OFF: ours.Mode.STUCK_OFF,
    theirs.Mode.DIP: ours.Mode.DIPPED,
}
WHENS = {
    theirs.When.START: ours.When.START,
    theirs.When.LATER: ours.When.LATER,
    theirs.When.LOOSE: ours.When.LOOSE,
    theirs.When.EVER: ours.When.SOMETIME,
}
KINDS = {
    "WireSense": ours.PartKind.SENSE,
    "NumberSense": ours.PartKind.NUMBER,
    "Wire": ours.PartKind.WIRE,
    "Contact": ours.PartKind.CONTACT,
    "Ground": ours.PartKind.GROUND,
    "Load": ours.PartKind.FUSE,
    "Output": ours.PartKind.OUTPUT,
    "Diode": ours.PartKind.DIODE,
    "Relay": ours.PartKind.RELAY,
    "Source": ours.PartKind.SOURCE,
    "Dip": ours.PartKind.SOURCE,
}


def mode_of(fault: theirs.Fault) -> ours.Mode:
    """The mode of the same fault; what is open in a contact is called so by what it does."""
    if isinstance(fault.part, Contact) and fault.mode is theirs.Mode.OPEN:
        return ours.Mode.STUCK_OPEN
    return MODES.get(fault.mode) or ours.Mode(fault.mode.value)


def matched(program: Program, faults: Iterable[theirs.Fault]) -> dict[theirs.Fault, ours.Fault]:
    """Each fault of the explorer (all of them) with the same one of the checker; raises AssertionError unless both find the same."""
    known = list(ours.faults_of(program))
    found: dict[theirs.Fault, ours.Fault] = {}
    for fault in faults:
        same = [each for each in known if is_same(program, fault, each)]
        assert len(same) == 1, (fault.name, [each.id for each in same])
        found[fault] = same[0]
        known.remove(same[0])
    assert not known, [each.id for each in known]
    return found


def is_same(program: Program, fault: theirs.Fault, each: ours.Fault) -> bool:
    kind = ours.PartKind.FUSE if fault.mode is theirs.Mode.FUSE else KINDS[type(fault.part).__name__]
    if (each.kind, each.mode) != (kind, mode_of(fault)):
        return False
    match fault.part:
        case Contact():
            return program.contacts[each.index] is fault.part
        case Diode():
            return program.diodes[each.index] is fault.part
        case Dip():
            return program.electrics.dips[each.index] is fault.part
        case part:
            return each.of == part.name
