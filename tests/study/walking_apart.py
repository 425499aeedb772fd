"""Walks of two vehicles with the same hands, each played by itself: whether they ever come to rest otherwise.

A timer with a tolerance lasts as long in both where it begins in both at once. What is given ends a walk where it is
not met in either.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from random import Random

from logiccheck.lang.program import Number, Program, Signal, SignalKind, Switch, Window, WorldSet
from logiccheck.lang.walk import timer_windows
from logiccheck.model.judge import broken
from logiccheck.model.memory import Time
from logiccheck.model.play import _Driver, candidates, first_world
from logiccheck.model.timeline import Timeline


class _Chosen(_Driver):
    """Runs last what chance says of their timer and begin, the same in every vehicle where that can be."""

    seed = 0

    def _duration(self, key: str, start: Time) -> Time:
        window = self.machine.windows[key]
        chance = Random(f"{self.seed} {key} {start}")
        value = window.lo + (window.hi - window.lo) * chance.choice([Fraction(0), Fraction(1, 2), Fraction(1)])
        return value if window.lo <= value <= window.hi else window.nominal


def watched(program: Program) -> dict[str, Signal]:
    """Outputs, relays, loads and power, by name."""
    found = {relay.name: Signal(SignalKind.RELAY, relay.name) for relay in program.relays}
    found |= {load.name: Signal(SignalKind.LIVE, load.wire) for load in program.loads}
    if program.box is not None:
        found |= {output.name: Signal(SignalKind.OUTPUT, output.name) for output in program.box.outputs}
        found["powered"] = Signal(SignalKind.POWERED, "powered")
    return found


def hands(program: Program, random: Random, times: list[Fraction]) -> Iterator[WorldSet]:
    """A change now and then, of one thing or two."""
    things: list[Switch | Number] = [*program.switches, *program.numbers]
    now = Fraction(0)
    for _ in range(random.randint(2, 9)):
        for thing in random.sample(things, min(len(things), random.choice([1, 1, 2]))):
            yield WorldSet(now, thing.name, random.choice(candidates(thing)))
        now += random.choice(times)


def steps(programs: tuple[Program, ...]) -> list[Fraction]:
    """Times that matter: those of the timers, half of these, and a little more or less."""
    windows: set[Window] = set()
    for program in programs:
        windows |= {*timer_windows(program).values()}
    ends = {end for window in windows for end in (window.lo, window.nominal, window.hi)} or {1_000_000}
    return sorted(
        {Fraction(end) * part for end in ends for part in (Fraction(1, 2), 1, Fraction(3, 4), Fraction(5, 4))}
    )


def walk(before: Program, after: Program, seed: int) -> str | None:
    """What differs first in the walk of this number; None if nothing does while it is lawful."""
    random = Random(seed)
    times = steps((before, after))
    moves = [*hands(before, random, times)]
    end = max(move.time for move in moves) + max(times)
    first = first_world(before, {move.name: move.value for move in moves if move.time == 0}, before.at_first)
    timelines: list[Timeline] = []
    for program in (before, after):
        driver = _Chosen(program, moves, [], end, first)
        driver.seed = seed
        timelines.append(driver.drive(200))
    limit = min(timeline.end for timeline in timelines)
    unlawful = min((each.instant.time for timeline in timelines for each in broken(timeline)), default=limit + 1)
    for time in sorted({each.time for timeline in timelines for each in timeline.settled}):
        if time >= unlawful or time > limit:
            return None
        one, other = ([e for e in timeline.settled if e.time <= time][-1] for timeline in timelines)
        for name, signal in watched(before).items():
            if one.moment.settled.values.holds(signal) != other.moment.settled.values.holds(signal):
                return f"{name} at {time} us of walk {seed}"
    return None
