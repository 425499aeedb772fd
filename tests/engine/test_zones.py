"""Zones by themselves: their bounds against real courses of deadlines, sums that are hit exactly, and their limits."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest
import z3

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.check import check_program
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.engines import Engine
from logiccheck.engine.timing import schedule
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.engine.zones import search, sets
from logiccheck.engine.zones.decide import Covered, decide
from logiccheck.engine.zones.order import arranged
from logiccheck.engine.zones.search import TooManyPlaces
from logiccheck.engine.zones.sets import TooLarge
from logiccheck.engine.zones.zone import NOTHING_RUNS, SAME, Rows, Zone, add, after_moment, next_moments
from tests.bench.families import Box, family
from tests.engine.asking import question
from tests.oracle.loading import loaded

SECONDS = 60.0
WINDOWS = [(2, 2), (3, 3), (1, 4), (2, 5), (5, 5)]  # of five clocks


# zones


class Course:
    """Clocks through moments at random, as a zone and as all constraints on real times together."""

    def __init__(self, random: Random) -> None:
        self.random, self.zone = random, NOTHING_RUNS
        self.solver, self.now = z3.Solver(), z3.RealVal(0)
        self.deadlines: dict[int, z3.ArithRef] = {}
        self.count = 0

    def step(self) -> None:
        """One moment: what falls due is chosen among what the zone offers, after it was seen to offer just enough."""
        self.count += 1
        last, self.now = self.now, z3.Real(f"t{self.count}")
        self.solver.add(self.now > last, *(self.now <= d for d in self.deadlines.values()))
        offered = dict(next_moments(self.zone))
        clocks = sorted(self.deadlines)
        for number in range(1 << len(clocks)):
            due = frozenset(c for k, c in enumerate(clocks) if number >> k & 1)
            assert (due in offered) == self.possible(*self.falls(due))
        due = self.random.choice(sorted(offered, key=sorted))
        self.solver.add(*self.falls(due))
        on = [c for c in clocks if c not in due and self.random.random() < 0.9]
        idle = [c for c in range(len(WINDOWS)) if c not in on]
        starts = {c: WINDOWS[c] for c in idle if self.random.random() < 0.4}
        self.zone = after_moment(self.zone, offered[due], on, starts)
        self.deadlines = {c: self.deadlines[c] for c in on}
        for clock, (low, high) in starts.items():
            self.deadlines[clock] = z3.Real(f"d{clock} {self.count}")
            self.solver.add(self.deadlines[clock] >= self.now + low, self.deadlines[clock] <= self.now + high)

    def falls(self, due: frozenset[int]) -> list[z3.BoolRef]:
        return [(d == self.now) == (c in due) for c, d in self.deadlines.items()]

    def possible(self, *what: z3.BoolRef) -> bool:
        self.solver.push()
        self.solver.add(*what)
        answer = self.solver.check()
        self.solver.pop()
        return bool(answer == z3.sat)

    def check(self) -> None:
        """Each bound of the zone is true, and as tight as can be."""
        points = [self.now, *(self.deadlines[c] for c in self.zone.clocks)]
        for a, row in enumerate(self.zone.rows):
            for b, bound in enumerate(row):
                limit, strict = bound >> 1, not bound & 1
                apart = points[a] - points[b]
                assert not self.possible(apart >= limit if strict else apart > limit)
                assert strict or self.possible(apart == limit)
                assert not strict or self.possible(apart > limit - z3.Q(1, 1000))


@pytest.mark.parametrize("seed", range(12))
def test_a_zone_is_all_that_real_deadlines_can_be(seed: int) -> None:
    course = Course(Random(seed))
    for _ in range(7):
        course.step()
        course.check()
    assert course.zone.clocks == tuple(sorted(course.deadlines))


def test_bounds_add_up() -> None:
    """ "At most" and "at most" is "at most"; with a "less than" it is "less than"."""
    assert add(2 * 3 + 1, 2 * 4 + 1) == 2 * 7 + 1
    assert add(2 * 3, 2 * 4 + 1) == add(2 * 3 + 1, 2 * 4) == add(2 * 3, 2 * 4) == 2 * 7


def test_a_zone_holds_another() -> None:
    wide, narrow = (_one(low, high) for low, high in ((1, 4), (2, 3)))
    assert wide.holds(narrow)
    assert not narrow.holds(wide)
    assert wide.holds(wide)


def _one(low: int, high: int) -> Zone:
    rows: Rows = [[SAME]]
    return after_moment(NOTHING_RUNS, rows, [], {0: (low, high)})


def test_what_belongs_together_stands_together() -> None:
    """Things in a row of which each depends on the next, given in disorder."""
    row = [3, 0, 5, 1, 4, 2]
    order = arranged(sorted(row), [set(pair) for pair in pairwise(row)])
    assert sorted(order) == sorted(row)
    assert sum(abs(order.index(a) - order.index(b)) for a, b in pairwise(row)) < 8
    assert sum(abs(a - b) for a, b in pairwise(row)) > 12


# sums that are hit exactly


def chain(stages: list[str], shot: str) -> str:
    """On-delays in a row against one shot from the same contact: do they ever meet."""
    box = Box()
    at = box.sensed("x")
    for k, stage in enumerate(stages):
        at = box.rule(f"a{k}", f"on_delay({at}, {stage})")
    box.rule("shot", f"one_shot(s_x, {shot})")
    return box.text(f"never {at} and shot")


CHAINS = [
    (["2 s"], 2_000_000),
    (["2 s", "3 s", "500 ms"], 5_500_000),
    (["from 2 s to 4 s", "3 s"], 5_000_000),
    (["from 2 s to 4 s", "from 1 s to 9 s", "from 3 s to 3.5 s"], 6_000_000),
    (["1 s", "1 s", "1 s", "1 s", "1 s", "1 s"], 6_000_000),
]


@pytest.mark.parametrize("engine", list(Engine))
@pytest.mark.parametrize(("stages", "longest"), CHAINS)
def test_a_chain_is_just_as_long_as_its_least_sum(stages: list[str], longest: int, engine: Engine) -> None:
    """A shot as long as that is over when the last stage comes; one longer by a microsecond is not."""
    assert verdict(chain(stages, f"{longest} us"), engine).kind is Kind.PROVED
    failing = verdict(chain(stages, f"{longest + 1} us"), engine)
    assert failing.kind is Kind.FAILS
    assert failing.story is not None
    assert failing.story.moments == len(stages) + 1  # the contact at time 0, and each stage


@pytest.mark.parametrize("engine", list(Engine))
def test_a_shot_with_a_tolerance_is_as_long_as_it_may_be(engine: Engine) -> None:
    assert verdict(chain(["2 s", "3 s"], "from 1 s to 5 s"), engine).kind is Kind.PROVED
    assert verdict(chain(["2 s", "3 s"], "from 1 s to 5.000001 s"), engine).kind is Kind.FAILS


def watching(limit: str) -> str:
    """A run-on of 5 s, from a contact that may come back: how long is it on after the contact is off."""
    box = Box()
    box.rule("glow", f"off_delay({box.sensed('x')}, 5 s)")
    return box.text(f"never glow while not s_x for longer than {limit}")


@pytest.mark.parametrize("engine", list(Engine))
def test_a_watch_is_passed_only_by_more_than_its_time(engine: Engine) -> None:
    assert verdict(watching("5 s"), engine).kind is Kind.PROVED
    assert verdict(watching("4.999999 s"), engine).kind is Kind.FAILS


def verdict(text: str, engine: Engine) -> Verdict:
    found = check_program(loaded(text), SECONDS, engines={engine}).verdicts[0]
    assert found.engines == {engine}
    return found


# families


@pytest.mark.parametrize("name", ["count:20", "count:40", "indep:20", "chain:6", "mix:10", "two:5"])
def test_zones_decide_the_families_alone(name: str) -> None:
    assert verdict(family(name), Engine.ZONES).kind is Kind.PROVED


@pytest.mark.parametrize("seconds", [1, 3])
def test_counting_the_wrong_way_round_fails_after_as_many_phases(seconds: int) -> None:
    """Time 0, the contact, each change of the lamp but the last, and the end."""
    cone = asked(family(f"countbad:{seconds}"))
    trace = decide(cone, Budget(SECONDS))
    assert not isinstance(trace, Covered)
    assert len(trace) == 2 * seconds + 2 + 1 - 1
    times, _ = schedule(cone, trace)
    assert times is not None
    assert times[-1] - times[0] >= Fraction(1_000_000 * seconds)


def test_the_search_for_a_long_story_begins_with_what_zones_know() -> None:
    """Story and moments are those of the search that knows nothing; a longer one is told at all."""
    text = family("countbad:2")
    slow = check_program(loaded(text), SECONDS, engines={Engine.REFINEMENT}).verdicts[0]
    fast = verdict(text, Engine.ZONES)
    assert slow.story == fast.story
    long = check_program(loaded(family("countbad:8")), SECONDS / 4, engines={Engine.ZONES}).verdicts[0]
    assert long.kind is Kind.FAILS
    assert long.story is not None
    assert long.story.moments == 18


def asked(text: str) -> Cone:
    questions, each = question(loaded(text), "asked")
    return exact(questions.cone(each, each.bad))


# limits


def test_too_many_places_are_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(search, "MOST_PLACES", 10)
    with pytest.raises(TooManyPlaces):
        decide(asked(family("count:5")), Budget(SECONDS))
    assert check_program(loaded(family("count:5")), 2, engines={Engine.ZONES}).verdicts[0].kind is Kind.NOT_DECIDED


def test_too_large_diagrams_are_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sets, "MOST_NODES", 500)
    with pytest.raises(TooLarge):
        decide(asked(family("count:5")), Budget(SECONDS))
    assert check_program(loaded(family("count:5")), 2, engines={Engine.ZONES}).verdicts[0].kind is Kind.NOT_DECIDED


def test_it_ends_when_time_is_over() -> None:
    with pytest.raises(OutOfTime):
        decide(asked(family("count:40")), Budget(-1.0))
