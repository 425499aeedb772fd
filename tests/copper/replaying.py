"""Plays a story of a broken vehicle once more on the vehicle as written, whose parts the explorer breaks itself."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from logiccheck.lang.program import Number, Program, Requirement
from logiccheck.model.timeline import Played, Timeline
from tests.oracle.broken.kernel import BrokenKernel, limited
from tests.oracle.broken.parts import Fault, When
from tests.oracle.kernel import Clock, Situation, World
from tests.oracle.monitors import Finding


class Replay:
    """`timeline` was played on another program; `switches` names, for each fault, the switch of that program that says
    whether it is there (position 1)."""

    def __init__(
        self,
        program: Program,
        requirement: Requirement,
        faults: Mapping[Fault, When],
        timeline: Timeline,
        switches: Mapping[Fault, str],
    ) -> None:
        whole = limited(program, faults)
        self.kernel = BrokenKernel(whole, requirement.form, faults.items())
        self.numbers = {number.name: number for number in whole.numbers}
        self.timeline, self.switches = timeline, switches
        self.deadlines: dict[Clock, Fraction] = {}
        self.situation: Situation | None = None
        self.found = False

    def shows(self) -> str:
        """Empty if the story breaks the requirement and keeps to all that is given; else what is wrong with it."""
        for played in self.timeline.played:
            time = Fraction(played.time)
            if not self.wait(time, including=False) or not self.enter(time, played):
                return f"at {played.time} it is no story of this vehicle"
        if not self.wait(Fraction(self.timeline.end), including=True):
            return "at its end it is no story of this vehicle"
        return "" if self.found else "nothing is wrong in it"

    def wait(self, until: Fraction, including: bool) -> bool:
        """Lets the clocks of monitors end that end by then."""
        while self.situation is not None:
            mine = {clock: end for clock, end in self.deadlines.items() if clock[0] != "machine"}
            time = min(mine.values(), default=until + 1)
            if time > until or (time == until and not including):
                break
            due = frozenset(clock for clock, end in mine.items() if end == time)
            moment = any(kind == "watch" for kind, _ in due)
            if not self.take(time, self.situation.world, due, moment):
                return False
        return True

    def enter(self, time: Fraction, played: Played) -> bool:
        """One moment of the story."""
        mine = {clock for clock, end in self.deadlines.items() if clock[0] != "machine" and end == time}
        due = frozenset({("machine", key) for key in played.due} | mine)
        before = self.situation.world if self.situation else None
        worlds = [world for world in self.kernel.worlds(before) if self.is_so(world, played)]
        return any(self.take(time, world, due, True) for world in worlds[:1])

    def is_so(self, world: World, played: Played) -> bool:
        """Whether a world of the kernel is that of the story."""
        kernel = self.kernel
        for fault, _ in kernel.faults:
            if world[kernel.place(fault)] != played.world[self.switches[fault]]:
                return False
        for i, name in enumerate(kernel.names[: kernel.whole]):
            held, told = kernel.values[i][world[i]], played.world[name]
            number = self.numbers.get(name)
            if held != told and (number is None or not alike(number, Fraction(held), Fraction(told))):
                return False
        return True

    def take(self, time: Fraction, world: World, due: frozenset[Clock], moment: bool) -> bool:
        event = self.kernel.event(self.situation, world, due, moment)
        if event is None or event.situation is None:
            return False
        self.found |= event.finding is not Finding.FINE
        self.situation = event.situation
        going_on = {clock: end for clock, end in self.deadlines.items() if clock not in event.started}
        self.deadlines = {}
        for clock in event.situation.clocks:
            self.deadlines[clock] = going_on[clock] if clock in going_on else time + self.duration(clock, time)
        return True

    def duration(self, clock: Clock, time: Fraction) -> Fraction:
        return Fraction(self.timeline.durations.get((clock[1], time), self.kernel.windows[clock].nominal))


def alike(number: Number, one: Fraction, other: Fraction) -> bool:
    """Whether no comparison tells the two values apart."""
    return all((one < bound, one == bound) == (other < bound, other == bound) for bound in number.bounds)
