"""Facts about deadlines: every real step is an abstract one, and what the facts at hand decide is decided."""

from __future__ import annotations

from collections import Counter
from itertools import permutations, product
from random import Random

import pytest

from logiccheck.engine.deadlines import Predicate
from logiccheck.engine.steps import Doing, clock_differences, conflict, predicate_differences
from tests.engine.stepping import Stepping, all_doings


def some(random: Random, clocks: int, rests: bool, most: int) -> Stepping:
    """Clocks with windows of a few microseconds, half of them exact, and a few facts about the deadlines of two, or, if
    `rests`, about one and the moment."""
    lows = [random.randint(1, 4) for _ in range(clocks)]
    windows = [(lo, lo + random.choice([0, 0, 1, 2])) for lo in lows]
    facts = [(i, j, bound) for i in range(clocks) for j in range(i + 1, clocks) for bound in range(-5, 6)]
    if rests:
        facts += [(i, clocks, bound) for i, (_, hi) in enumerate(windows) for bound in range(1, hi + 1)]
    return Stepping(windows, random.sample(facts, min(len(facts), random.randint(1, most))))


@pytest.mark.parametrize("clocks", [1, 2, 3])
def test_every_real_step_is_allowed(clocks: int) -> None:
    """It meets the constraints, and its bits are what they mean of the deadlines after it."""
    random, seen = Random(clocks), Counter[bool]()
    for _ in range(150):
        stepping = some(random, clocks, rests=True, most=9)
        for _ in range(40):
            real = stepping.real(random)
            inputs = stepping.shown(real)
            assert stepping.allowed(inputs), (stepping.windows, stepping.predicates, real)
            expected = {p: stepping.meaning(p, real.after, real.moment) for p in stepping.predicates}
            assert stepping.following(inputs) == expected, (stepping.windows, real)
            seen.update(value for pair in expected.values() for value in pair)
    assert min(seen.values()) > 500


@pytest.mark.parametrize(("clocks", "rests", "count"), [(1, True, 30), (2, False, 12)])
def test_what_no_real_step_does_is_not_allowed(clocks: int, rests: bool, count: int) -> None:
    """Of one clock and the time it has left, or of the deadlines of two: nothing that they tell is left open."""
    random, seen = Random(clocks), Counter[bool]()
    for _ in range(count):
        stepping = some(random, clocks, rests, most=2)
        for doing, inputs in stepping.steps(all_doings(clocks)):
            if stepping.could_be(doing, inputs):
                real = stepping.is_real(doing, inputs)
                assert stepping.allowed(inputs) is real, (stepping.windows, stepping.predicates, doing, inputs)
                seen[real] += 1
    assert min(seen.values()) > 100


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_a_start_is_compared_with_a_time_left_that_is_known_to_the_microsecond(order: tuple[int, int, int]) -> None:
    """One clock starts, one goes on, one falls due: what is known of the last two may be all there is to know."""
    starts, goes_on, due = (frozenset({i}) for i in order)
    doing = Doing(goes_on | due, due, starts, goes_on)
    random, seen = Random(3), Counter[bool]()
    for _ in range(40):
        windows = [(lo, lo + random.randint(0, 2)) for lo in (1, random.randint(1, 3), 2)]
        facts = [(i, j, random.randint(-3, 3)) for i, j in ((0, 1), (0, 2), (1, 2), (0, 1), (0, 2), (1, 2))]
        stepping = Stepping(windows, [*facts, (order[1], 3, random.randint(1, 3))])
        for real in stepping.every(doing):
            inputs = stepping.shown(real)
            assert stepping.allowed(inputs), (stepping.windows, stepping.predicates, real)
            expected = {p: stepping.meaning(p, real.after, real.moment) for p in stepping.predicates}
            assert stepping.following(inputs) == expected, (stepping.windows, real)
            seen.update(value for pair in expected.values() for value in pair)
    assert min(seen.values()) > 50


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_how_long_a_clock_still_runs_is_known_when_another_falls_due(order: tuple[int, int]) -> None:
    """From one fact about the deadlines of both."""
    (other, clock), seen = order, Counter[bool]()
    doing = Doing(frozenset(order), frozenset({other}), frozenset(), frozenset({clock}))
    for left, apart in product(range(1, 5), repeat=2):
        stepping = Stepping([(1, 5), (1, 5)], [(clock, 2, left), (0, 1, apart if clock == 0 else -apart)])
        for _, inputs in stepping.steps([doing]):
            if stepping.could_be(doing, inputs):
                real = stepping.is_real(doing, inputs)
                assert stepping.allowed(inputs) is real, (stepping.predicates, inputs)
                seen[real] += 1
    assert min(seen.values()) > 10


def test_three_deadlines_agree() -> None:
    """One fact about each two of three clocks that start together: what two of them say of the third is known."""
    random, seen = Random(3), Counter[bool]()
    everything = frozenset(range(3))
    doing = Doing(frozenset(), frozenset(), everything, frozenset())
    for _ in range(25):
        facts = [(i, j, random.randint(-3, 3)) for i, j in ((0, 1), (0, 2), (1, 2))]
        stepping = Stepping([(1, 9)] * 3, facts)
        for _, inputs in stepping.steps([doing]):
            real = stepping.is_real(doing, inputs)
            assert stepping.allowed(inputs) is real, (stepping.predicates, stepping.following(inputs))
            seen[real] += 1
    assert min(seen.values()) > 200


@pytest.mark.parametrize("facts", [[(0, 2, 1), (0, 2, 2)], [(0, 1, -1)], [(0, 1, 0)], [(0, 1, 1), (1, 2, 2)]])
def test_labels_clash_exactly_where_no_real_step_has_them(facts: list[Predicate]) -> None:
    """Whatever two clocks do and the facts say before and after it; thirds of a microsecond show all that there is."""
    stepping, seen = Stepping([(2, 2), (1, 2)], facts), Counter[bool]()
    clocks, now = stepping.tracked.clocks, stepping.tracked.now
    assert stepping.predicates == sorted(facts)
    for doing in all_doings(2):
        real = {stepping.said(doing, step) for step in stepping.every(doing, grain=3)}
        about = [(p, after) for p, after, _, _ in next(iter(real))]
        for bits in product(product((False, True), repeat=2), repeat=len(about)):
            said = tuple((p, after, *pair) for (p, after), pair in zip(about, bits, strict=True))
            differences = clock_differences(clocks, doing)
            for p, after, more, least in said:
                differences += predicate_differences(p, now, doing, after, more, least)
            assert (conflict(differences) is None) is (said in real), (doing, said)
            seen[said in real] += 1
    assert min(seen.values()) > 50
