"""A story played on while no hand moves, until nothing moves at all, or all goes round and round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.replay import played
from logiccheck.explain.onward import Onward, Point
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import AfterLasting, Expr, LastsAtMost, Program
from logiccheck.model.interpreter import Machine
from logiccheck.model.judge import broken
from logiccheck.model.memory import Time
from logiccheck.model.observed import signal
from logiccheck.model.reaction import Values
from logiccheck.model.signals import Instant
from logiccheck.model.story import Step, Story
from logiccheck.model.timeline import Timeline

ROUNDS = 3  # what goes round and round is played so often, and has to be the same each time
MOMENTS = 5_000  # after so many it is given up


@frozen
class Still:
    """What lasts from `begin` on: `values`, each for a time, one after the other, and again from the first, all in
    microseconds. What does not move has one, which lasts no given time: `period` is None."""

    begin: Time
    period: Time | None
    values: tuple[tuple[Values, Time], ...]

    def share(self, expr: Expr) -> Fraction:
        """The part of the time in which the condition is so."""
        if self.period is None:
            return Fraction(self.values[0][0].holds(expr))
        return sum((Fraction(time) for values, time in self.values if values.holds(expr)), Fraction(0)) / self.period


def still(program: Program, story: Story, budget: Budget) -> Still | None:
    """How it goes on for ever after the story, with runs that begin from then on lasting their nominal time.

    None where it never settles, does not recur within many moments, or what is given does not let hands rest for so
    long. What recurs is played for three rounds. Raises OutOfTime.
    """
    ended = played(program, story, budget)
    onward = Onward(Machine(program), Situation(ended, ended.end))
    point: Point | None = onward.begin
    seen: dict[object, Time] = {}
    while point is not None and point.next is not None and point.repeats not in seen:
        if len(seen) == MOMENTS:
            return None
        budget.check()
        seen[point.repeats] = point.time
        _, point = onward.wait(point)
    if point is None:
        return None
    begin = seen[point.repeats] if point.next is not None else point.time
    period = point.time - begin if point.next is not None else None
    return _replayed(program, story, begin, period, budget)


def _replayed(program: Program, story: Story, begin: Time, period: Time | None, budget: Budget) -> Still | None:
    """The same, played from time 0 in one piece; None where something given is not met."""
    begin = max(begin, story.steps[-1].time)
    after = ROUNDS * period if period is not None else _longest(program) + 1
    last = Step(Fraction(begin + after), story.steps[-1].world, ())
    timeline = played(program, replace(story, steps=(*story.steps, last)), budget)
    if broken(timeline) or not timeline.settles or _forced(timeline, begin):
        return None
    if period is None:
        return Still(begin, None, ((_values(timeline, begin), 0),))
    rounds = [_round(timeline, begin + number * period, period) for number in range(ROUNDS)]
    assert all(_same(each, rounds[0]) for each in rounds), "what was to recur does not"
    return Still(begin, period, rounds[0])


def _longest(program: Program) -> int:
    """The longest time for which something given lets anything last."""
    return max((given.time for given in program.givens if isinstance(given, LastsAtMost | AfterLasting)), default=0)


def _forced(timeline: Timeline, begin: Time) -> bool:
    """A hand has to move at some time, however late that is: something lasts that may not last for ever."""
    marks = [Instant(begin), *(Instant(each.time) for each in timeline.settled if each.time > begin)]
    for given in timeline.program.givens:
        match given:
            case LastsAtMost(p=p) if all(signal(timeline, p).value(mark) for mark in marks):
                return True
            case AfterLasting(c=c, p=p):
                met, lasts = signal(timeline, c), signal(timeline, p)
                if all(lasts.value(mark) for mark in marks) and not all(met.value(mark) for mark in marks):
                    return True
            case _:
                pass
    return False


def _values(timeline: Timeline, time: Time) -> Values:
    """What is settled at this time."""
    return [each for each in timeline.settled if each.time <= time][-1].moment.settled.values


def _round(timeline: Timeline, begin: Time, period: Time) -> tuple[tuple[Values, Time], ...]:
    """What is settled one after the other in one round, and for how long."""
    inside = [each.time for each in timeline.settled if begin < each.time < begin + period]
    times = [begin, *inside, begin + period]
    return tuple((_values(timeline, a), b - a) for a, b in pairwise(times))


def _same(one: Sequence[tuple[Values, Time]], other: Sequence[tuple[Values, Time]]) -> bool:
    return [(values.true, values.nodes, time) for values, time in one] == [
        (values.true, values.nodes, time) for values, time in other
    ]
