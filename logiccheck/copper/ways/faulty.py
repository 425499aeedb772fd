"""Ways to a wire that are there only with one fault: what shorts, welds, sticks or touches, and what then gets in.

The vehicle with the fault is a vehicle like any other (`copper/faults/changed.py`). There it is asked whether the wire
can be live, or grounded, while no way of the whole harness conducts: while the wire would not be so with the same
switches, coils and commands, were the part as it should be.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.changed import STAGES, together
from logiccheck.copper.faults.parts import Fault, Mode, When
from logiccheck.copper.faults.reading import stuck
from logiccheck.copper.ways.paths import Way, Ways, any_of, ways_to
from logiccheck.copper.ways.questions import Questions
from logiccheck.explain.asking import Answer, Open, Seen
from logiccheck.lang.program import And, Not, Position, Program, Signal, SignalKind
from logiccheck.lang.walk import references
from logiccheck.model.story import Story

MODES = (Mode.SHORTED, Mode.WELDED, Mode.DEAD, Mode.STUCK_CLOSED, Mode.STUCK_ON, Mode.LIVE, Mode.GROUNDED)
"""Faults that let something pass; of a relay also that it stays open, for that closes what is closed without it."""


@frozen
class Opened:
    """What becomes of the wire with this fault, there from the start. Where it is so in a story: the first way, of the
    changed vehicle `program`, that conducts at the end of `story`."""

    fault: Fault
    kind: SignalKind
    answer: Answer
    program: Program
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
        more = tuple(way for way in found.found if _rests_on(way, fault))
        if more or not found.whole:
            yield _asked(fault, changed, ways, more, Questions(changed, (), budget, progress), kept)


def passes(program: Program, fault: Fault) -> bool:
    """It is a fault of copper by which more may pass than should."""
    senses = {sense.name for sense in (program.box.senses if program.box is not None else ())}
    return fault.mode in MODES and fault.of not in senses and fault.kind.value != "source"


def _asked(
    fault: Fault, changed: Program, ways: Ways, more: tuple[Way, ...], questions: Questions, kept: list[Questions]
) -> Opened:
    if not ways.whole:
        return Opened(fault, ways.kind, Open(None), changed)
    condition = And((Signal(ways.kind, ways.wire), Not(any_of(ways.found))))
    questions.first = (condition, any_of(more))
    answer = questions.ask(fault.id, condition)
    kept += [questions] if questions.bugs else []
    if not isinstance(answer, Seen):
        return Opened(fault, ways.kind, answer, changed)
    values = questions.end(answer)
    way = next((way for way in more if values.holds(way.condition)), None)
    return Opened(fault, ways.kind, answer, changed, way, questions.story(answer))


def _rests_on(way: Way, fault: Fault) -> bool:
    """The way would not conduct as it does without the fault."""
    if way.origin.name == STAGES:
        return True
    own = (fault.id, stuck(fault.of))
    leaves = (leaf for each in way.conditions for leaf in references(each))
    return any(isinstance(leaf, Position | Signal) and leaf.name in own for leaf in leaves)
