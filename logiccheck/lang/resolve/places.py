"""Who may name what: for each place of the language the kinds of names it may hold, and whether it may remember."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.diagnostic import Message
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.electrics import MemoryInElectrics
from logiccheck.lang.mistakes.places import (
    CannotSense,
    CoilOfBox,
    ContactOfCopper,
    InstantNeedsPlain,
    MemoryInCopper,
    MemoryInFact,
    NotOfTheWorld,
    OutputInGiven,
    PreviousInCoil,
)
from logiccheck.lang.resolve.scope import BOX, COPPER, SENSES, WORLD, Declared, Kind, Scope


class Place(Enum):
    """Where an expression stands; the value names the place in a sentence."""

    RULE = "a rule"
    CONTACT = "a contact"
    COIL = "a coil"
    FIRST = "`at first`"
    FACT = "this assumption"  # of the world only: exclusions, lasts, the c of `after`
    ASSUMED = "this part of an assumption"  # the y of `changes only while`, the p of `after ... has lasted`
    REQUIREMENT = "a requirement"
    INSTANT = "`even for an instant`"
    EXPECTED = "an expectation"
    PARKED = "`parked`"
    DIP = "a dip"
    TELL_TALE = "a tell-tale"


_EVERYTHING = WORLD | COPPER | BOX | {Kind.POWERED}

ALLOWED: dict[Place, frozenset[Kind]] = {
    Place.RULE: SENSES | {Kind.RULE, Kind.OUTPUT},
    Place.CONTACT: WORLD | {Kind.RELAY},
    Place.COIL: WORLD | COPPER | {Kind.OUTPUT},
    Place.FIRST: WORLD,
    Place.FACT: WORLD,
    Place.ASSUMED: _EVERYTHING,
    Place.REQUIREMENT: _EVERYTHING,
    Place.INSTANT: _EVERYTHING,
    Place.EXPECTED: _EVERYTHING,
    Place.PARKED: WORLD,
    Place.DIP: _EVERYTHING,
    Place.TELL_TALE: _EVERYTHING,
}

OBSERVERS = frozenset({Place.ASSUMED, Place.REQUIREMENT, Place.EXPECTED})
"""Places whose memory lives on settled values: an edge lasts no time there."""


def breach(place: Place, entry: Declared, scope: Scope) -> Message:
    """The mistake of naming `entry` in a place that does not allow its kind."""
    word, kind = entry.name, entry.kind.value
    match place:
        case Place.RULE:
            return _cannot_sense(entry, scope)
        case Place.CONTACT:
            return ContactOfCopper(word, kind)
        case Place.COIL:
            return CoilOfBox(word, kind)
        case Place.FACT if entry.kind in BOX | COPPER | {Kind.POWERED}:
            return OutputInGiven(word, kind)
        case _:
            return NotOfTheWorld(word, kind, place.value)


def memory_breach(place: Place, what: str) -> Message | None:
    """The mistake of a timer, edge or stored state `what` in this place; None if it may stand there."""
    match place:
        case Place.CONTACT:
            return MemoryInCopper(what)
        case Place.FIRST | Place.FACT:
            return MemoryInFact(what, place.value)
        case Place.INSTANT:
            return InstantNeedsPlain(what)
        case Place.PARKED | Place.DIP | Place.TELL_TALE:
            return MemoryInElectrics(what, place.value)
        case Place.COIL if what == "previous":
            return PreviousInCoil()
        case _:
            return None


def _cannot_sense(entry: Declared, scope: Scope) -> Message:
    """The senses that read it, or a wire that it makes live or grounded; else how to get one."""
    if scope.full:
        return CannotSense(entry.name, entry.kind.value, (), "")
    wires = _wires_of(entry, scope)
    inputs = {entry.name, *wires}
    senses = (d for d in scope.declared.values() if isinstance(d.item, w.Sense) and d.item.input.text in inputs)
    example = ""
    if entry.kind is Kind.NUMBER:
        example = f"sense {entry.name}_sensed from {entry.name}"
    elif wires:
        example = f"sense {entry.name}_sensed from {wires[0]} live"
    return CannotSense(entry.name, entry.kind.value, tuple(sorted(d.name for d in senses)), example)


def _wires_of(entry: Declared, scope: Scope) -> list[str]:
    """The wires that show the state of something: itself, the wire it hangs on, or those its contacts are in."""
    if entry.kind is Kind.WIRE:
        return [entry.name]
    if isinstance(entry.item, w.Load):
        return [entry.item.wire.text]
    wires = [d for d in scope.declared.values() if isinstance(d.item, w.Wire)]
    return sorted(
        d.name
        for d in wires
        if isinstance(d.item, w.Wire) and any(_mentions(c, entry.name) for c in d.item.connections)
    )


def _mentions(connection: w.Connection, name: str) -> bool:
    """Whether the condition of a connection names something."""
    todo: list[w.Expr | None] = [connection.condition]
    while todo:
        match todo.pop():
            case w.Negation(x):
                todo.append(x)
            case w.Chain(parts=parts):
                todo.extend(parts)
            case w.Bare(subject) | w.Is(subject) | w.In(subject) if subject.text == name:
                return True
            case _:
                pass
    return False
