"""Plays a vehicle on from a situation: what hands do just after it, and then what timers do while nothing else moves.

Runs that are under way in the situation last as long as they do there, later ones their nominal time. "Just after" is
so soon that nothing comes between: a span of time that is far shorter than any two times can lie apart.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from math import lcm

from logiccheck.base.frozen import frozen
from logiccheck.explain.situation import Situation
from logiccheck.model.interpreter import Machine
from logiccheck.model.memory import Memory, Time
from logiccheck.model.reaction import World
from logiccheck.model.timeline import Played

SMALLER = 10_000  # more than the moments that may follow one another "just after"


@frozen
class Point:
    """What lasts after a moment at `time`: the world, what is stored, and when each running timer falls due."""

    time: Time
    world: World
    memory: Memory
    deadlines: Mapping[str, Time]

    @property
    def next(self) -> Time | None:
        """When the next timer falls due."""
        return min(self.deadlines.values(), default=None)

    @property
    def repeats(self) -> object:
        """The same at two points exactly if all goes on in the same way from both, as long as hands rest."""
        still = replace(self.memory, clocks=frozenset())
        return still, frozenset((key, deadline - self.time) for key, deadline in self.deadlines.items())


class Onward:
    """Goes on from one situation, in all of the vehicle or in a part of it."""

    def __init__(self, machine: Machine, situation: Situation) -> None:
        self.machine = machine
        timeline, played = situation.timeline, situation.played
        memory = played.moment.memory
        kept = frozenset((key, run) for key, run in memory.clocks if key in machine.windows)
        begun = {key: played.time - run for key, run in kept}
        deadlines = {key: start + self._chosen(timeline.durations, key, start) for key, start in begun.items()}
        self._known = {key for key, start in begun.items() if (key, start) in timeline.durations}
        self.now = situation.time
        self.begin = Point(played.time, played.world, replace(memory, clocks=kept), deadlines)
        times = [self.now, played.time, *deadlines.values()]
        self._fineness = lcm(*(Fraction(time).denominator for time in times))
        self.instant = Fraction(1, self._fineness * SMALLER)  # how long "just after" takes

    def _chosen(self, durations: Mapping[tuple[str, Time], Time], key: str, start: Time) -> Time:
        return durations.get((key, start), self.machine.windows[key].nominal)

    def rough(self, point: Point, due: frozenset[str]) -> bool:
        """Whether a timer that falls due after the point has a tolerance, and its run no duration that was chosen."""
        chosen = {key for key in self._known if point.deadlines.get(key) == self.begin.deadlines[key]}
        windows = [self.machine.windows[key] for key in due - chosen]
        return any(window.lo < window.hi for window in windows)

    def without_instants(self, time: Time) -> Time:
        """The time as if all that was done just after the situation had been done in it."""
        return Fraction(time * self._fineness // 1, self._fineness)

    def hands(self, worlds: Sequence[World]) -> tuple[list[Played], Point | None]:
        """These worlds one after the other, just after the situation; no point where one of them never settles."""
        point: Point | None = self.begin
        done: list[Played] = []
        for number, world in enumerate(worlds, 1):
            assert point is not None
            played, point = self.moment(point, self.now + number * self.instant, world)
            done.append(played)
            if point is None:
                break
        return done, point

    def wait(self, point: Point) -> tuple[Played, Point | None]:
        """The next moment at which timers fall due; there must be one."""
        assert point.next is not None
        return self.moment(point, point.next, point.world)

    def moment(self, point: Point, time: Time, world: World) -> tuple[Played, Point | None]:
        """One moment after the point, with the timers that fall due then; no point where it never settles."""
        due = frozenset(key for key, deadline in point.deadlines.items() if deadline == time)
        moment = self.machine.moment(point.memory, time - point.time, world, due)
        played = Played(time, world, due, moment)
        if not moment.settles:
            return played, None
        running = {key for key, _ in moment.memory.clocks}
        deadlines = {key: deadline for key, deadline in point.deadlines.items() if key in running - moment.started}
        deadlines |= {key: time + self.machine.windows[key].nominal for key in moment.started}
        return played, Point(time, world, moment.memory, deadlines)
