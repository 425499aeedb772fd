"""Wires that are meant to be apart and are not: one is live, or grounded, from where nobody meant it to be.

What a wire is meant to be fed by stands in its own line, after `from` or `to`. What else reaches it may only do so
while the wire has it from its own line anyway; but what comes through a diode that is there for it may be meant, where
no sense and no coil takes the wire for its own switch. And two wires that lead into a third, each through a diode of
its own, are meant to be apart, whatever feeds them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations

from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.parts import is_own as stands_in
from logiccheck.copper.ways.paths import Way, Ways, any_of
from logiccheck.copper.ways.questions import Questions
from logiccheck.explain.asking import Answer, Never, Seen
from logiccheck.lang.program import And, Contact, Diode, Expr, Not, Program, Signal, SignalKind, Wire, WireSense
from logiccheck.lang.walk import references


@frozen
class Suspect:
    """The wire is fed by some of `over` while none of `own` conducts: can that be? `together`: through a diode of its
    own the wire leads into the second of these, as the first does, over which it is reached; None: it has a line of its
    own that says what feeds it. `meant`: that may be so on purpose."""

    wire: str
    kind: SignalKind
    over: tuple[Way, ...]
    own: tuple[Way, ...]
    together: tuple[str, str] | None = None
    meant: bool = False

    @property
    def condition(self) -> Expr:
        """It is so, once all has settled."""
        return And((any_of(self.over), Not(any_of(self.own))))


@frozen
class Sneak:
    """A suspect, and what became of it. Where it was seen: `way` conducts at the end of the story; `apart`: a wire on
    it that leads by a diode into the same third wire as the suspect does; `further`: the suspects that are reached over
    this very wire."""

    suspect: Suspect
    answer: Answer
    way: Way | None
    apart: tuple[str, str] | None = None
    further: tuple[str, ...] = ()


def suspects(program: Program, found: dict[tuple[str, SignalKind], Ways]) -> Iterator[Suspect]:
    """All that may be so by the drawing alone, in the order of the file; `found`: all ways to the wires looked at."""
    for (name, kind), ways in found.items():
        if not ways.whole:
            continue
        wire = next(each for each in program.wires if each.name == name)
        own = tuple(way for way in ways.found if is_own(wire, way))
        if own or (kind is SignalKind.LIVE and _says_from(program, wire)):
            others = [way for way in ways.found if not is_own(wire, way)]
            over = tuple(way for way in others if not _by_diode(way))
            yield from [Suspect(name, kind, over, own)] if over else []
            over = tuple(way for way in others if _by_diode(way))
            yield from [Suspect(name, kind, over, own, meant=not _is_read(program, name))] if over else []
    for one, other, into in _meant_apart(program):
        if (one, SignalKind.LIVE) not in found or not found[one, SignalKind.LIVE].whole:
            continue
        ways = found[one, SignalKind.LIVE]
        wire = next(each for each in program.wires if each.name == one)
        through = tuple(way for way in ways.found if other in way.wires[:-1])
        over = tuple(way for way in through if not is_own(wire, way) and not _by_diode(way))
        own = tuple(way for way in ways.found if way not in through)
        if over:
            yield Suspect(one, SignalKind.LIVE, over, own, (other, into))


def is_own(wire: Wire, way: Way) -> bool:
    """The last step of the way is written in the line of the wire."""
    last = way.steps[-1].part if way.steps else None
    return isinstance(last, Contact) and stands_in(last, wire)


def _by_diode(way: Way) -> bool:
    return bool(way.steps) and isinstance(way.steps[-1].part, Diode)


def _is_read(program: Program, wire: str) -> bool:
    """A sense or a coil takes the wire for something that it stands for."""
    kinds = (SignalKind.LIVE, SignalKind.GROUNDED)
    leaves = (leaf for relay in program.relays for leaf in references(relay.coil))
    if any(isinstance(leaf, Signal) and leaf.kind in kinds and leaf.name == wire for leaf in leaves):
        return True
    senses = program.box.senses if program.box is not None else ()
    return any(isinstance(sense, WireSense) and sense.wire == wire for sense in senses)


def _says_from(program: Program, wire: Wire) -> bool:
    """The line of the wire says what makes it live, whether or not that ever is."""
    grounds = {ground.name for ground in program.grounds}
    return any(stands_in(contact, wire) and contact.left not in grounds for contact in program.contacts)


def _meant_apart(program: Program) -> Iterator[tuple[str, str, str]]:
    """Two wires, either way round, and the third into which each leads through a diode of its own."""
    wires = {wire.name for wire in program.wires}
    for into in dict.fromkeys(diode.cathode for diode in program.diodes):
        anodes = dict.fromkeys(d.anode for d in program.diodes if d.cathode == into and d.anode in wires)
        for one, other in permutations(anodes, 2):
            yield one, other, into


def sneaks(program: Program, questions: Questions, suspected: list[Suspect]) -> Iterator[Sneak]:
    """What became of each suspect that can be so or is not decided; one cause is told once. May raise
    KeyboardInterrupt; then what was not asked is left out."""
    told: list[Sneak] = []
    for suspect in suspected:
        if any(each.suspect.wire == suspect.wire and each.suspect.kind is suspect.kind for each in told):
            continue
        answer = questions.ask(suspect.wire, suspect.condition)
        if isinstance(answer, Never):
            continue
        told.append(Sneak(suspect, answer, None))
        if isinstance(answer, Seen):
            values = questions.end(answer)
            way = next(way for way in suspect.over if values.holds(way.condition))
            told[-1] = Sneak(suspect, answer, way, _apart(program, suspect, way))
        yield told[-1]


def _apart(program: Program, suspect: Suspect, way: Way) -> tuple[str, str] | None:
    if suspect.together is not None:
        return None
    pairs = ((other, into) for one, other, into in _meant_apart(program) if one == suspect.wire)
    return next((pair for pair in pairs if pair[0] in way.wires), None)


def causes(found: list[Sneak]) -> tuple[Sneak, ...]:
    """Those that are not reached over another of them, each with the wires that are reached over it."""
    first = [_first(found, each) for each in found]
    return tuple(
        replace(
            each, further=tuple(o.suspect.wire for o, f in zip(found, first, strict=True) if f is each and o is not f)
        )
        for each, one in zip(found, first, strict=True)
        if one is each
    )


def _first(found: list[Sneak], each: Sneak) -> Sneak:
    """The one on whose way the way of this one begins; itself, where there is none."""
    if each.way is None:
        return each
    begun = (replace(each.way, steps=each.way.steps[:length]) for length in range(len(each.way.steps)))
    return next((other for way in begun for other in found if other.way == way), each)
