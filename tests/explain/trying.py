"""What would turn a signal, by trying everything: all worlds, played with the kernel of the explorer and its monitors.

Two kernels go the same way: one of the whole vehicle, which tells how the signal is and whether all settles, and one
of the slice that can matter to the signal, which tells whether what is given allows it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from logiccheck.explain.ordinary import Turn
from logiccheck.explain.situation import Asked, Situation
from logiccheck.lang.program import Program
from logiccheck.model.reaction import World
from tests.oracle.kernel import Clock, Kernel
from tests.oracle.kernel import Situation as State
from tests.oracle.slices import Slicer, named

INSTANT = Fraction(1, 10**6)  # of a microsecond: far shorter than any two times in a random program lie apart


class Follower:
    """One kernel on its way through time: hands move the world, clocks end when they were said to."""

    def __init__(self, kernel: Kernel, situation: Situation) -> None:
        self.kernel, self.durations, self.now = kernel, situation.timeline.durations, situation.time
        self.state: State | None = None
        self.deadlines: dict[Clock, Fraction] = {}
        self.time = Fraction(-1)
        self.cut = False  # what is given does not allow what came last
        self.chases = False  # what came last never settles
        for played in situation.timeline.settled[: situation.at + 1]:
            self.hands(Fraction(played.time), played.world)
        self.wait(Fraction(situation.time), through=True)

    def copy(self) -> Follower:
        """Another at the same place."""
        other = object.__new__(Follower)
        other.__dict__.update(self.__dict__, deadlines=dict(self.deadlines))
        return other

    @property
    def goes_on(self) -> bool:
        return not self.cut and not self.chases

    def hands(self, time: Fraction, world: World) -> None:
        """All up to this time, and then this world."""
        self.wait(time, through=False)
        values, names = self.kernel.values, self.kernel.names
        self.enter(time, tuple(values[i].index(world[name]) for i, name in enumerate(names)), True)

    def wait(self, time: Fraction, through: bool) -> None:
        """Nothing but clocks up to this time; `through`: those that end then, too."""
        while self.goes_on and self.deadlines:
            end = min(self.deadlines.values())
            if end > time or (end == time and not through):
                return
            self.tick()

    def tick(self) -> None:
        """The next end of clocks."""
        end = min(self.deadlines.values())
        due = [kind for (kind, _), deadline in self.deadlines.items() if deadline == end]
        assert self.state
        self.enter(end, self.state.world, any(kind != "own" for kind in due))

    def enter(self, time: Fraction, world: tuple[int, ...], moment: bool) -> None:
        if not self.goes_on:
            return
        due = frozenset(clock for clock, deadline in self.deadlines.items() if deadline == time)
        event = self.kernel.event(self.state, world, due, moment)
        self.time, self.cut, self.chases = time, event is None, event is not None and event.situation is None
        if event is None or event.situation is None:
            return
        self.deadlines = {c: self.deadlines[c] for c in event.situation.clocks if c not in event.started}
        self.deadlines |= {c: time + self.lasts(c, time) for c in event.situation.clocks if c in event.started}
        self.state = event.situation

    def lasts(self, clock: Clock, time: Fraction) -> Fraction:
        nominal = self.kernel.windows[clock].nominal
        return Fraction(self.durations.get((clock[1], time), nominal) if time <= self.now else nominal)

    def is_on(self, asked: Asked) -> bool:
        assert self.state
        reading = self.kernel.reading(self.state.world)
        return self.kernel.machine.repeat(self.state.memory, reading).holds(asked.on)


@dataclass(frozen=True)
class Found:
    """A way to turn it: the world it takes, how many moves that is, and when it turns (None: at once)."""

    world: tuple[tuple[str, int | Fraction], ...]
    moves: int
    time: Fraction | None


class Trying:
    """All ways to turn one signal in one situation."""

    def __init__(self, situation: Situation, asked: Asked) -> None:
        self.situation, self.asked = situation, asked
        program = situation.program
        sliced = replace(Slicer(program).slice(named(asked.on)), at_first=())
        self.names = [each.name for each in sliced.switches] + [each.name for each in sliced.numbers]
        self.lawful = Follower(Kernel(sliced, None), situation)
        self.whole = Follower(Kernel(replace(program, givens=(), at_first=()), None), situation)
        self.on = self.whole.is_on(asked)
        self.world = dict(situation.played.world)
        self.program: Program = program

    def worlds(self) -> Iterator[tuple[dict[str, int | Fraction], int, list[dict[str, int | Fraction]]]]:
        """Every other world, how many moves lead to it, and the worlds on the way, all arriving in the last."""
        kernel = self.lawful.kernel
        places = {name: kernel.values[i] for i, name in enumerate(kernel.names)}
        steady = {name: kernel.steady[i] for i, name in enumerate(kernel.names)}
        switches = {each.name for each in self.program.switches}
        for values in product(*(places[name] for name in self.names)):
            world = self.world | dict(zip(self.names, values, strict=True))
            moves, paths = 0, {}
            for name in self.names:
                old, new = places[name].index(self.world[name]), places[name].index(world[name])
                if old != new:
                    between = list(range(old, new, 1 if new > old else -1))[1:] if steady[name] else []
                    paths[name] = [*(places[name][i] for i in between), world[name]]
                    moves += len(paths[name]) if name in switches else 1
            if moves:
                longest = max(map(len, paths.values()))
                way = []
                for at in range(longest):
                    late = {name: path[at - longest] for name, path in paths.items() if at - longest >= -len(path)}
                    way.append(self.world | late)
                yield world, moves, way

    def arrive(self, way: list[dict[str, int | Fraction]]) -> tuple[Follower, Follower]:
        lawful, whole = self.lawful.copy(), self.whole.copy()
        for number, world in enumerate(way, 1):
            for each in (lawful, whole):
                each.hands(self.situation.time + number * INSTANT, world)
        return lawful, whole

    def now(self) -> list[Found]:
        """All that turns it at once."""
        found = []
        for world, moves, way in self.worlds():
            lawful, whole = self.arrive(way)
            if lawful.goes_on and whole.goes_on and whole.is_on(self.asked) != self.on:
                found.append(Found(self.told(world), moves, None))
        return found

    def later(self, below: int, moments: int) -> list[Found]:
        """All of fewer moves that turns it later, within so many moments in which timers fall due."""
        found = []
        for world, moves, way in self.worlds():
            if moves < below:
                lawful, whole = self.arrive(way)
                if lawful.goes_on and whole.goes_on and whole.is_on(self.asked) == self.on:
                    time = self.follow(lawful, whole, moments)
                    found += [Found(self.told(world), moves, time)] if time is not None else []
        return found

    def follow(self, lawful: Follower, whole: Follower, moments: int) -> Fraction | None:
        """When it turns while nothing moves, if what is given allows that."""
        for _ in range(moments):
            if not whole.deadlines or not lawful.goes_on:
                return None
            whole.tick()
            lawful.wait(whole.time, through=True)
            if whole.chases:
                return None
            if lawful.cut:
                return None
            if whole.is_on(self.asked) != self.on:
                return whole.time
        return None

    def told(self, world: dict[str, int | Fraction]) -> tuple[tuple[str, int | Fraction], ...]:
        return tuple((name, world[name]) for name in sorted(self.names) if world[name] != self.world[name])


def worlds_of(turn: Turn) -> Iterator[tuple[tuple[str, int | Fraction], ...]]:
    """All that one told change stands for."""
    targets = sorted(turn.targets, key=lambda each: each.name)
    for values in product(*(target.values for target in targets)):
        yield tuple((target.name, value) for target, value in zip(targets, values, strict=True))
