"""Two vehicles played with the same hands: where they first differ in what an output, a relay or a load does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.explain.ending import same_hands
from logiccheck.explain.guarding.renamed import second
from logiccheck.lang.program import Program, Signal, SignalKind
from logiccheck.model.interpreter import Machine
from logiccheck.model.judge import broken
from logiccheck.model.reaction import Values
from logiccheck.model.story import NOTHING_ELSE, Run, Step, Story
from logiccheck.model.timeline import Timeline

MOST_MOMENTS = 300  # of a story that is played: what blinks for hours has more


@frozen
class Difference:
    """`story` plays on the vehicle as it is, up to the moment at which the edited one first differs: `on` are the
    outputs, relays and loads that are on then only as it is, `off` those that are on only as edited. `now` and `then`:
    what is so at that moment."""

    story: Story
    on: tuple[str, ...]
    off: tuple[str, ...]
    now: Values
    then: Values

    @property
    def names(self) -> tuple[str, ...]:
        return (*self.on, *self.off)


def told_apart(before: Program, after: Program, story: Story) -> Difference | None:
    """The story of both vehicles (or of the first alone), played on each: where they first differ once all has settled.

    None where they do not, or where one of them does not meet what is given, or comes to no rest. A run of a timer that
    begins in both at once lasts as long in both, where it can.
    """
    one = same_hands(before, story, MOST_MOMENTS)
    other = same_hands(after, replace(story, runs=tuple(_runs(after, story))), MOST_MOMENTS)
    if one is None or other is None:
        return None
    end = min(one.end, other.end)
    times = sorted({each.time for timeline in (one, other) for each in timeline.played if each.time <= end})
    for time in times:
        now, then = (_settled(timeline, time) for timeline in (one, other))
        on = tuple(name for name, what in watched(before) if now.holds(what) and not then.holds(what))
        off = tuple(name for name, what in watched(before) if then.holds(what) and not now.holds(what))
        if on or off:
            lawful = not any(each.instant.time <= time for timeline in (one, other) for each in broken(timeline))
            return Difference(_until(story, one, time), on, off, now, then) if lawful else None
    return None


def watched(program: Program) -> Iterator[tuple[str, Signal]]:
    """What can be seen of a vehicle: outputs, relays, loads, and whether the box has power."""
    if program.box is not None:
        yield "powered", Signal(SignalKind.POWERED, "powered")
        for output in program.box.outputs:
            yield output.name, Signal(SignalKind.OUTPUT, output.name)
    for relay in program.relays:
        yield relay.name, Signal(SignalKind.RELAY, relay.name)
    for load in program.loads:
        yield load.name, Signal(SignalKind.LIVE, load.wire)


def _runs(after: Program, story: Story) -> Iterator[Run]:
    """How long timers last in the edited vehicle: as in the other where that can be, else as the story says of it."""
    windows = Machine(after).windows
    known = set()
    for run in story.runs:
        window = windows.get(run.key)
        if window is not None and window.lo <= run.duration <= window.hi:
            known.add((run.key, run.start))
            yield run
    own = {second(key): key for key in windows}
    for run in story.runs:
        key = own.get(run.key)
        if key is not None and (key, run.start) not in known:
            yield replace(run, key=key)


def _settled(timeline: Timeline, time: Fraction | int) -> Values:
    return [each for each in timeline.settled if each.time <= time][-1].moment.settled.values


def _until(story: Story, timeline: Timeline, time: Fraction | int) -> Story:
    """The story up to this time, as the vehicle of the timeline goes through it."""
    due = {each.time: each.due for each in timeline.played}
    steps = [replace(s, due=tuple(sorted(due.get(s.time, ())))) for s in story.steps if s.time <= time]
    if steps[-1].time < time:
        steps.append(Step(Fraction(time), steps[-1].world, tuple(sorted(due.get(time, ())))))
    used = {*timeline.durations} - {(run.key, run.start) for run in timeline.unused}
    runs = tuple(run for run in story.runs if (run.key, run.start) in used and run.start <= time)
    return replace(story, steps=tuple(steps), runs=runs, overdue=False, aside=NOTHING_ELSE)
