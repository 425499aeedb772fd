"""The heaviest assignment: the same as all assignments tried, however often it pauses; it ends when the time is over."""

from __future__ import annotations

import time
from itertools import combinations, product
from random import Random

import pytest

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine import sat
from logiccheck.engine.sat import heaviest

VARIABLES = 7


def random_clauses(random: Random) -> list[list[int]]:
    return [
        [random.choice([1, -1]) * var for var in random.sample(range(1, VARIABLES + 1), random.randint(1, 3))]
        for _ in range(random.randint(3, 16))
    ]


def most(clauses: list[list[int]], weights: dict[int, int]) -> int | None:
    """The greatest weight, of all assignments tried."""
    found = None
    for values in product((False, True), repeat=VARIABLES):
        holds = {lit for var, value in enumerate(values, 1) for lit in (var if value else -var,)}
        if all(holds & set(clause) for clause in clauses):
            weight = sum(weight for lit, weight in weights.items() if lit in holds)
            found = weight if found is None else max(found, weight)
    return found


def pigeons(holes: int) -> list[list[int]]:
    """One pigeon more than there are holes, each in one of its own: it cannot be, and takes long to see."""
    place = {(p, h): p * holes + h + 1 for p in range(holes + 1) for h in range(holes)}
    clauses = [[place[p, h] for h in range(holes)] for p in range(holes + 1)]
    for h in range(holes):
        clauses += [[-place[p, h], -place[q, h]] for p, q in combinations(range(holes + 1), 2)]
    return clauses


def test_no_time_is_no_answer() -> None:
    with pytest.raises(OutOfTime):
        heaviest([[1, 2], [-1, -2]], {1: 3, 2: 2}, Budget(0.0))


@pytest.mark.parametrize("pause", [1, 20_000])
def test_it_is_the_heaviest_of_all(pause: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of 150 random sets of clauses, some of which nothing meets."""
    monkeypatch.setattr(sat, "SLICE", pause)
    none = 0
    for seed in range(150):
        random = Random(seed)
        clauses = random_clauses(random)
        weights = {random.choice([1, -1]) * var: random.randint(1, 9) for var in range(1, VARIABLES + 1)}
        found, wanted = heaviest(clauses, weights, Budget(60.0)), most(clauses, weights)
        assert (None if found is None else sum(weights[lit] for lit in found)) == wanted, seed
        none += wanted is None
    assert 5 <= none <= 100


def test_a_long_search_ends_with_its_time() -> None:
    begin = time.monotonic()
    with pytest.raises(OutOfTime):
        heaviest(pigeons(13), {1: 1, 2: 1}, Budget(0.5))
    assert time.monotonic() - begin < 20
