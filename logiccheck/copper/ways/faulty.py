"""Ways to a wire that are there only with one fault: what shorts, welds, sticks or touches, and what then gets in.

The vehicle with the fault is a vehicle like any other (`copper/faults/changed.py`). There it is asked whether the wire
can be live, or grounded, while no way of the whole harness conducts: while the wire would not be so with the same
switches, coils and commands, were the part as it should be. If not, the fault may still move a coil or an output, and
that closes a way of the whole harness: so it is asked once more while no way conducts on which the fault has no hold.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.copper.faults.changed import STAGES, together
from logiccheck.copper.faults.parts import Fault, Mode, PartKind, When, faults_of
from logiccheck.copper.faults.reading import stuck
from logiccheck.copper.ways.paths import Way, Ways, any_of, ways_to
from logiccheck.copper.ways.questions import Questions
from logiccheck.explain.asking import Answer, Never, Open, Seen
from logiccheck.lang.matters import Names
from logiccheck.lang.program import And, Const, Expr, Not, Or, Program, Signal, SignalKind
from logiccheck.lang.walk import references
from logiccheck.model.story import Story

MODES = (Mode.SHORTED, Mode.WELDED, Mode.DEAD, Mode.STUCK_CLOSED, Mode.STUCK_ON, Mode.LIVE, Mode.GROUNDED)
"""Faults that let something pass; of a relay also that it stays open, for that closes what is closed without it."""


@frozen
class Opened:
    """What becomes of the wire with this fault, there from the start. Where it is so in a story: the first way, of the
    changed vehicle `program`, that conducts at the end of `story`. With too many ways to the wire nothing is asked.

    `beside`: a way of the whole harness that hangs on what the fault can move may conduct, too, and never one of the
    new ways without; then `Never` says only that no new way conducts without it.
    """

    fault: Fault
    kind: SignalKind
    answer: Answer
    program: Program
    beside: bool = False
    way: Way | None = None
    story: Story | None = None


def opened(
    program: Program,
    fault: Fault,
    whole: tuple[Ways, ...],
    budget: Budget,
    progress: Callable[[str], None],
    kept: list[Questions],
) -> Iterator[Opened]:
    """What becomes of the wire with the fault, live and grounded, where by the drawing something more might reach it.

    `whole`: all ways to it in the whole harness, live and grounded. Questions that met bugs of ours are added to
    `kept`. May raise KeyboardInterrupt.
    """
    changed = together(replace(program, requirements=(), scenarios=()), [fault], When.START)
    for ways in whole:
        found = ways_to(changed, ways.wire, ways.kind)
        more = tuple(way for way in found.found if _rests_on(changed, way, fault))
        if more or not found.whole:
            yield _asked(program, fault, changed, ways, more, Questions(changed, (), budget, progress), kept)


def near(program: Program, wire: str) -> list[Fault]:
    """The faults by which more may pass than should, and that by the drawing can matter to this wire."""
    lets = {kind: _leads_to(program, wire, kind) for kind in (SignalKind.LIVE, SignalKind.GROUNDED)}
    either = set().union(*lets.values())
    return [each for each in faults_of(program) if each.mode in MODES and _is_near(program, each, lets, either)]


def _leads_to(program: Program, wire: str, kind: SignalKind) -> set[str]:
    """All from which something may get to the wire, sources and grounds too."""
    ends = {source.name for source in program.sources} | {ground.name for ground in program.grounds}
    ways = [(c.right, c.left) for c in program.contacts] + [(c.left, c.right) for c in program.contacts]
    ways += [(d.cathode, d.anode) if kind is SignalKind.LIVE else (d.anode, d.cathode) for d in program.diodes]
    return spread({wire}, [(head, tail) for head, tail in ways if head not in ends])


def _is_near(program: Program, fault: Fault, lets: Mapping[SignalKind, set[str]], either: set[str]) -> bool:
    match fault.kind:
        case PartKind.WIRE:
            return fault.of in lets[SignalKind.LIVE if fault.mode is Mode.LIVE else SignalKind.GROUNDED]
        case PartKind.CONTACT:
            contact = program.contacts[fault.index]
            return contact.left in either or contact.right in either
        case PartKind.DIODE:
            diode = program.diodes[fault.index]
            return diode.anode in lets[SignalKind.LIVE] or diode.cathode in lets[SignalKind.GROUNDED]
        case PartKind.OUTPUT:
            outputs = program.box.outputs if program.box is not None else ()
            return any(output.name == fault.of and output.feeds in either for output in outputs)
        case PartKind.RELAY:
            closed = [c.condition for c in program.contacts if c.left in either or c.right in either]
            closed += [end.condition for end in program.sources if end.name in either]
            closed += [end.condition for end in program.grounds if end.name in either]
            return any(_names(condition, fault.of) for condition in closed)
        case _:
            return False


def _asked(
    program: Program,
    fault: Fault,
    changed: Program,
    ways: Ways,
    more: tuple[Way, ...],
    questions: Questions,
    kept: list[Questions],
) -> Opened:
    if not ways.whole:
        return Opened(fault, ways.kind, Open(None), changed)
    live, own = Signal(ways.kind, ways.wire), [_as_it_should(program, way) for way in ways.found]
    condition = And((live, Not(_one_of(own))))
    names = Names(changed)
    free = [each for each in own if names.world([each]).isdisjoint((fault.id, stuck(fault.of)))]
    apart = And((live, Not(_one_of(free))))
    questions.first = (condition, apart, any_of(more))
    answer, beside = questions.ask(fault.id, condition), False
    if isinstance(answer, Never) and len(free) < len(own):
        other = questions.ask(fault.id, apart)
        beside = not isinstance(other, Never)
        answer = questions.ask(fault.id, And((apart, any_of(more)))) if beside else other
    kept += [questions] if questions.bugs else []
    if not isinstance(answer, Seen):
        return Opened(fault, ways.kind, answer, changed, beside)
    values = questions.end(answer)
    way = next((way for way in more if values.holds(way.condition)), None)
    return Opened(fault, ways.kind, answer, changed, beside, way, questions.story(answer))


def _one_of(conditions: list[Expr]) -> Expr:
    return Or(tuple(conditions)) if conditions else Const(False)


def _as_it_should(program: Program, way: Way) -> Expr:
    """It would conduct with the same switches, coils and commands, were nothing broken."""
    ends = {(SignalKind.SOURCE, source.name): source.condition for source in program.sources}
    ends |= {(SignalKind.GROUND, ground.name): ground.condition for ground in program.grounds}
    origin = ends.get((way.origin.kind, way.origin.name), way.origin)
    return And((origin, *(each for each in way.conditions if each != way.origin)))


def _rests_on(changed: Program, way: Way, fault: Fault) -> bool:
    """The way would not conduct as it does without the fault."""
    if way.origin.name == STAGES:
        return True
    ends = [end.condition for end in changed.sources if end.name == way.begin]
    ends += [end.condition for end in changed.grounds if end.name == way.begin]
    return any(_names(each, fault.id) or _names(each, stuck(fault.of)) for each in (*way.conditions, *ends))


def _names(condition: Expr, name: str) -> bool:
    return any(leaf.name == name for leaf in references(condition))
