"""Plays a program in time: hands move the world at given times, timers fall due in between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import pairwise

from logiccheck.base.budget import Budget
from logiccheck.lang.program import Compare, Excluded, Expr, Not, Number, Position, Program, Scenario, Switch, WorldSet
from logiccheck.model.interpreter import Impossible, Machine
from logiccheck.model.memory import Memory, Time, whole
from logiccheck.model.reaction import Values, World
from logiccheck.model.story import Run, Story
from logiccheck.model.timeline import Played, Timeline
from logiccheck.model.truth import all_nodes, subexpressions


def play(
    program: Program,
    changes: Iterable[WorldSet],
    runs: Iterable[Run],
    end: Time,
    start_world: World,
    most: int | None = None,
    budget: Budget | None = None,
) -> Timeline:
    """Play from time 0 to `end`, both included (microseconds).

    `start_world` holds all switches and numbers at time 0, unless `changes` set them then. Changes at one instant, and
    timers that fall due at it, are one moment. A run named in `runs` lasts as long as said there, any other its nominal
    time; runs of timers that are written in requirements are kept for the judge. A moment that never settles is the
    last. After `most` moments the timeline ends, with the last of them. Raises `Impossible` for a value or a duration
    out of its range, and `OutOfTime` where it takes longer than the budget says.
    """
    return _Driver(program, changes, runs, end, start_world).drive(most, budget)


class _Driver:
    def __init__(
        self, program: Program, changes: Iterable[WorldSet], runs: Iterable[Run], end: Time, start_world: World
    ) -> None:
        self.program, self.machine, self.end = program, Machine(program), whole(end)
        self.world = dict(start_world)
        self.changes: dict[Time, dict[str, int | Fraction]] = {}
        for change in changes:
            self.changes.setdefault(whole(change.time), {})[change.name] = change.value
        self.runs: dict[tuple[str, Time], Run] = {(run.key, run.start): run for run in runs}
        self.begun: set[tuple[str, Time]] = set()  # every run so far, by timer and start
        self.deadlines: dict[str, Time] = {}  # of the running timers

    def drive(self, most: int | None = None, budget: Budget | None = None) -> Timeline:
        played = [self._play(0, self.machine.initial(), 0)]
        cut = False
        while played[-1].moment.settles and (time := self._next(played[-1].time)) is not None:
            cut = len(played) == most
            if cut:
                break
            if budget is not None:
                budget.check()
            played.append(self._play(time, played[-1].moment.memory, time - played[-1].time))
        durations = {begun: run.duration for begun, run in self.runs.items()}
        mine = {begun: run for begun, run in self.runs.items() if run.key in self.machine.windows}
        unused = tuple(run for begun, run in mine.items() if begun not in self.begun)
        end = self.end if played[-1].moment.settles and not cut else played[-1].time
        return Timeline(self.program, tuple(played), end, durations, unused)

    def _play(self, time: Time, memory: Memory, elapsed: Time) -> Played:
        self.world |= self.changes.get(time, {})
        due = frozenset(key for key, deadline in self.deadlines.items() if deadline == time)
        moment = self.machine.moment(memory, elapsed, dict(self.world), due)
        running = self.machine.running(moment.memory)
        self.deadlines = {key: self.deadlines[key] for key in running.keys() - moment.started}
        for key in moment.started:
            self.begun.add((key, time))
            self.deadlines[key] = time + self._duration(key, time)
        return Played(time, dict(self.world), due, moment)

    def _duration(self, key: str, start: Time) -> Time:
        window, run = self.machine.windows[key], self.runs.get((key, start))
        if run is None:
            return window.nominal
        if not window.lo <= run.duration <= window.hi:
            raise Impossible(f"{key} cannot last {run.duration} us: only {window.lo} .. {window.hi} us")
        return whole(run.duration)

    def _next(self, now: Time) -> Time | None:
        """The next instant, up to the end, at which hands move or a timer falls due."""
        coming = [time for time in (*self.changes, *self.deadlines.values()) if now < time <= self.end]
        return min(coming, default=None)


def play_scenario(program: Program, scenario: Scenario) -> Timeline:
    """Play a scenario; what it does not set at time 0 is as `at first` says, else the first position or the low end."""
    chosen = {each.name: each.value for each in scenario.sets if each.time == 0}
    runs = [Run(each.key, Fraction(each.time), Fraction(each.duration)) for each in scenario.timers]
    return play(program, scenario.sets, runs, scenario.end, first_world(program, chosen, program.at_first))


def play_story(
    program: Program,
    story: Story,
    others: Mapping[str, int | Fraction] | None = None,
    budget: Budget | None = None,
) -> Timeline:
    """Play a story to its last step. Names it does not involve keep one value: that in `others`, else a lawful one.

    Raises `Impossible` when the story asks for what cannot happen, or a timer of box or relays that it says falls due,
    or begins, does not; and `OutOfTime` where it takes longer than the budget says.
    """
    first = dict(others or {}) | dict(story.steps[0].world)
    excluded = [Not(given.p) for given in program.givens if isinstance(given, Excluded) and not all_nodes([given.p])]
    world = first_world(program, first, (*program.at_first, *excluded))
    changes = [WorldSet(step.time, name, value) for step in story.steps for name, value in step.world]
    timeline = play(program, changes, story.runs, story.steps[-1].time, world, budget=budget)
    due = {played.time: played.due for played in timeline.played}
    windows = Machine(program).windows
    for step in story.steps:
        if missing := sorted(windows.keys() & set(step.due) - due.get(step.time, frozenset())):
            raise Impossible(f"{', '.join(missing)} does not fall due at {step.time} us")
    if timeline.unused:
        raise Impossible(f"no run of {timeline.unused[0].key} begins at {timeline.unused[0].start} us")
    return timeline


def first_world(program: Program, chosen: World, facts: Iterable[Expr]) -> World:
    """A value for every switch and number: what is chosen; for the others the first ones that meet these facts.

    First is the first position, or the low end. Facts that cannot be met beside what is chosen are not met.
    """
    variables: tuple[Switch | Number, ...] = (*program.switches, *program.numbers)
    world = {each.name: candidates(each)[0] for each in variables} | dict(chosen)
    named = [(fact, _names(fact) - chosen.keys()) for fact in facts]
    free = {name for _, names in named for name in names}
    search = _search([each for each in variables if each.name in free], world, [n for n in named if n[1]])
    return next(search, world)


def _search(
    free: list[Switch | Number], world: dict[str, int | Fraction], facts: list[tuple[Expr, set[str]]]
) -> Iterator[dict[str, int | Fraction]]:
    """The worlds that meet the facts; `free` still have to be given a value, each fact stands with its free names."""
    if not free:
        yield world
        return
    later = {each.name for each in free[1:]}
    ripe = [fact for fact, names in facts if free[0].name in names and not names & later]
    for value in candidates(free[0]):
        trial = world | {free[0].name: value}
        if all(Values(trial, frozenset()).holds(fact) for fact in ripe):
            yield from _search(free[1:], trial, facts)


def candidates(variable: Switch | Number) -> list[int | Fraction]:
    """Every position; of a number its ends, the constants it is compared with, and one value between two of these."""
    if isinstance(variable, Switch):
        return list(range(len(variable.positions)))
    marks = sorted({variable.low, *variable.bounds, variable.high})
    return [*marks, *((a + b) / 2 for a, b in pairwise(marks))]


def _names(fact: Expr) -> set[str]:
    """The switches and numbers of the world named in it."""
    parts = subexpressions(fact)
    return {part.name for part in parts if isinstance(part, Position) or (isinstance(part, Compare) and not part.sense)}
