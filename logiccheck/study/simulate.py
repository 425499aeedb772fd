"""Plays a scenario: what hands, timers and outputs do in time, and whether what was expected holds."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Expectation, Program, Scenario
from logiccheck.model.judge import Broken, broken, expectation_breaks, expectation_reached
from logiccheck.model.memory import Time
from logiccheck.model.play import play_scenario
from logiccheck.model.signals import Instant
from logiccheck.model.story import Run
from logiccheck.model.timeline import Played, Timeline


@frozen
class TimerRun:
    """A timer ran from `start` to `end` (None: it still runs); `due`: it ended because its time was over."""

    key: str
    start: Time
    end: Time | None
    due: bool


@frozen
class Judged:
    """`breaks`: the first instant at which it is not so, where it is known."""

    expectation: Expectation
    held: bool
    breaks: Instant | None


@frozen
class Simulation:
    """A scenario as played.

    `warnings` are the assumptions it does not meet, `unused` the durations it gives to timers that do not start then,
    `wakings` the times at which the box lost its power for an instant and woke with its memory lost. If the timeline
    does not settle, it ends there, and what was expected later is not held.
    """

    scenario: Scenario
    timeline: Timeline
    timers: tuple[TimerRun, ...]
    expectations: tuple[Judged, ...]
    warnings: tuple[Broken, ...]
    unused: tuple[Run, ...]
    wakings: tuple[Time, ...]

    @property
    def held(self) -> bool | None:
        """Whether all that is expected holds; None when nothing is expected, which is never a success."""
        return all(judged.held for judged in self.expectations) if self.expectations else None


def simulate(program: Program, scenario: Scenario) -> Simulation:
    """Play the scenario to its end; raises `Impossible` if it asks for a value or a duration out of its range."""
    timeline = play_scenario(program, scenario)
    return Simulation(
        scenario,
        timeline,
        tuple(sorted(_timer_runs(timeline), key=lambda run: (run.start, run.key))),
        tuple(_judged(timeline, each) for each in scenario.expectations),
        broken(timeline),
        timeline.unused,
        tuple(played.time for played in timeline.settled if played.moment.wakings),
    )


def _judged(timeline: Timeline, expectation: Expectation) -> Judged:
    breaks = expectation_breaks(timeline, expectation)
    return Judged(expectation, breaks is None and expectation_reached(timeline, expectation), breaks)


def _timer_runs(timeline: Timeline) -> Iterator[TimerRun]:
    begun: dict[str, Time] = {}
    for played in timeline.settled:
        for key in _stopped(played, begun):
            yield TimerRun(key, begun.pop(key), played.time, key in played.due)
        begun |= dict.fromkeys(played.moment.started, played.time)
    for key, start in begun.items():
        yield TimerRun(key, start, None, due=False)


def _stopped(played: Played, begun: dict[str, Time]) -> list[str]:
    """The runs that end at this moment: over, broken off, or begun anew."""
    going_on = {key for key, run in played.moment.memory.clocks if run > 0}
    return [key for key in begun if key not in going_on]
