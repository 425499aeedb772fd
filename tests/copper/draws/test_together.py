"""Which sets are asked next: just those of which nothing is known."""

from __future__ import annotations

from itertools import combinations
from random import Random

from logiccheck.base.budget import Budget
from logiccheck.copper.draws.together import Happened, Together
from logiccheck.explain.asking import Asking
from logiccheck.lang.program import Signal, SignalKind
from logiccheck.model.story import Story
from tests.oracle.loading import loaded

TEXT = 'vehicle "x"\nharness\n    source plus\n    wire a from plus\n    load lamp on a 2 A\n'


def knowing(so: list[frozenset[int]], never: list[frozenset[int]]) -> Together:
    """As if these situations were known to be, and these sets never to be so."""
    live = Signal(SignalKind.LIVE, "a")
    together = Together(Asking(loaded(TEXT), (live,), Budget(60.0)), (live,))
    together.happened += [Happened(each, Story((), (), False, frozenset())) for each in so]
    together.never += never
    return together


def test_what_is_not_known_is_all_that_may_be_asked() -> None:
    """Of random situations: each set of at most three that is in none and holds nothing that never is holds one of
    those that are found; and nothing is found that is known."""
    found_some = 0
    for seed in range(60):
        random = Random(seed)
        numbers = range(random.randint(3, 8))
        sets = [frozenset(n for n in numbers if random.random() < 0.7) for _ in range(random.randint(0, 6))]
        never = [frozenset(random.sample(numbers, 2)) for _ in range(random.randint(0, 2))]
        together = knowing(sets, [each for each in never if not any(each <= so for so in sets)])
        found = {*together.unknown(numbers, 3)}
        assert all(len(each) <= 3 and together.known(each) is None for each in found), seed
        for few in (frozenset(each) for size in (1, 2, 3) for each in combinations(numbers, size)):
            assert together.known(few) is not None or any(each <= few for each in found), (seed, few)
        found_some += bool(found)
    assert found_some >= 30


def test_what_was_too_hard_is_not_asked_again() -> None:
    together = knowing([frozenset({0, 1}), frozenset({1, 2})], [])
    assert {*together.unknown(range(3), 2)} == {frozenset({0, 2})}
    together.hard.add(frozenset({0, 2}))
    assert {*together.unknown(range(3), 3)} == set()
    assert together.too_hard(frozenset(range(3)), 3) == [frozenset({0, 2})]
    assert together.too_hard(frozenset({0, 1}), 3) == together.too_hard(frozenset(range(3)), 1) == []


def test_what_is_seldom_nearly_so_is_counted() -> None:
    """Of three, how often all but one were."""
    together = knowing([frozenset({0, 1}), frozenset({1, 2, 3}), frozenset({3})], [])
    assert together.nearly(frozenset({0, 1, 2})) == 2
    assert together.nearly(frozenset({0, 3})) == 3
