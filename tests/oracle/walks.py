"""Random walks: one story of a program, driven by the monitors of the explorer in exact time.

The walk chooses worlds and durations as it goes, writes down what it chose so that it can be played again elsewhere,
and notes at each instant what the monitors say.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from logiccheck.lang.program import Form, Program, WorldSet
from logiccheck.model.story import Run
from tests.oracle.kernel import Clock, Kernel, Situation
from tests.oracle.monitors import Finding


@dataclass
class Walk:
    """What was chosen, and what the monitors found; times in microseconds."""

    changes: list[WorldSet] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    end: Fraction = Fraction(0)
    found: Fraction | None = None  # when the requirement is first known not to hold
    overdue: bool = False  # it is known just after that instant
    cut: Fraction | None = None  # when what is given is first not met: the walk ends there
    unsettled: bool = False  # the walk ends with a moment that never settles


class Walker:
    """Walks through one program, watching one requirement."""

    def __init__(self, program: Program, form: Form, random: Random) -> None:
        self.kernel = Kernel(program, form)
        self.random = random
        windows = self.kernel.windows.values()
        self.step = Fraction(min((window.lo for window in windows), default=1_000_000), 2)
        self.deadlines: dict[Clock, Fraction] = {}
        self.walk = Walk()

    def go(self, moments: int) -> Walk:
        """A walk of at most so many moments of hands, and all that falls due in between."""
        situation = self.enter(None, self.choose(None, frozenset()), Fraction(0), frozenset(), True)
        time = Fraction(0)
        for _ in range(moments):
            if situation is None:
                return self.walk
            hands = time + self.step * self.random.choice([1, 1, 2, 2, 3, 4, 5, 6, 8])
            situation = self.wait(situation, hands)
            if situation is None:
                return self.walk
            due = self.falling(hands)
            world = self.choose(situation, due)
            moment = world != situation.world or any(kind != "own" for kind, _ in due)
            if moment or due:
                situation = self.enter(situation, world, hands, due, moment)
            time = hands
        self.walk.end = max(self.walk.end, time)
        return self.walk

    def choose(self, before: Situation | None, due: frozenset[Clock]) -> tuple[int, ...]:
        """A world; mostly one that goes on."""
        worlds = list(self.kernel.worlds(before.world if before else None))
        lawful = [world for world in worlds if self.kernel.event(before, world, due)]
        return self.random.choice(lawful if lawful and self.random.random() < 0.95 else worlds)

    def falling(self, time: Fraction) -> frozenset[Clock]:
        return frozenset(clock for clock, deadline in self.deadlines.items() if deadline == time)

    def wait(self, situation: Situation | None, until: Fraction) -> Situation | None:
        """All that falls due before `until`."""
        while situation is not None:
            time = min(self.deadlines.values(), default=until)
            if time >= until:
                break
            due = self.falling(time)
            moment = any(kind != "own" for kind, _ in due)
            situation = self.enter(situation, situation.world, time, due, moment)
        return situation

    def enter(
        self, before: Situation | None, world: tuple[int, ...], time: Fraction, due: frozenset[Clock], moment: bool
    ) -> Situation | None:
        """One instant; None ends the walk."""
        walk = self.walk
        for name, value in self.kernel.reading(world).items():
            walk.changes.append(WorldSet(time, name, value))
        walk.end = time
        event = self.kernel.event(before, world, due, moment)
        if event is None or event.situation is None:
            walk.cut = None if event else time
            walk.unsettled = event is not None
            return None
        if event.finding is not Finding.FINE and walk.found is None:
            walk.found, walk.overdue = time, event.finding is Finding.OVERDUE
        going_on = {clock: self.deadlines[clock] for clock in event.situation.clocks if clock not in event.started}
        self.deadlines = going_on
        for clock in event.situation.clocks:
            if clock in event.started:
                self.deadlines[clock] = time + self.duration(clock, time)
        return event.situation

    def duration(self, clock: Clock, time: Fraction) -> Fraction:
        window = self.kernel.windows[clock]
        middle = Fraction(window.lo + window.hi, 2)
        chosen = self.random.choice([Fraction(window.lo), middle, Fraction(window.hi)])
        if clock[0] != "own":
            self.walk.runs.append(Run(clock[1], time, chosen))
        return chosen
