"""Cut sets of random vehicles: the failing sets of faults of which each is asked on a vehicle of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import combinations
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.sets.breaking import Breaking, Cuts, Faults
from logiccheck.copper.sets.search import Hunt
from logiccheck.explain.asking import Asking, Seen
from logiccheck.explain.asking import Never as CannotBe
from logiccheck.explain.situation import signals
from logiccheck.lang.program import (
    And,
    CallsLasting,
    CallsWithin,
    Expr,
    Guard,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    Program,
    Requirement,
    WaitsFor,
)
from logiccheck.lang.walk import form_expressions
from tests.campaign import seeds
from tests.copper.sets.hunting import cuts_of
from tests.copper.sets.opening import breakable, without
from tests.copper.sets.redundant import redundant
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = (13, 14, 16, 17, 15)  # of the first ones those that tell most in little time
ORDER = 2
MOST_FAULTS = 12
MOST_TELLING = 2  # requirements of one vehicle
EACH = 10.0


def vehicles(which: Iterable[int]) -> Iterator[tuple[int, Breaking, tuple[Requirement, ...]]]:
    """Vehicles with a few faults and what is required: redundant ones, and on every third seed any random one."""
    for seed in which:
        program = loaded(random_program(seed).text if seed % 3 == 0 else redundant(seed))
        breaking = breakable(program, closed=seed % 2 == 0)
        if 0 < len(breaking.names) <= MOST_FAULTS:
            yield seed, breaking, tuple(required(Random(seed), program)) if seed % 3 == 0 else program.requirements


def required(random: Random, program: Program) -> Iterator[Requirement]:
    """What the program requires, and conditions of its own signals in every form."""
    yield from (each for each in program.requirements if not isinstance(each.form, Possible))
    known = [each.on for each in signals(program).values()]

    def some() -> Expr:
        parts = (random.choice(known) for _ in range(random.choice([1, 1, 2, 3])))
        return And(tuple(each if random.random() < 0.6 else Not(each) for each in parts))

    time = random.choice([1, 2, 3]) * 1_000_000
    forms = [
        Never(some(), some(), always=False, instant=random.random() < 0.3),
        Never(some(), some(), always=False, instant=False),
        NeverLonger(some(), some(), time),
        CallsWithin(some(), some(), time, some()),
        CallsLasting(some(), some(), time, some()),
        OnlyAfter(some(), some(), random.choice([None, time]), random.choice([None, some()])),
        WaitsFor(some(), some(), random.choice([None, some()])),
    ]
    for number, form in enumerate(forms):
        yield Requirement(f"random_{number}", "", Guard.DANGER, form, "")


def fails(breaking: Breaking, requirement: Requirement, faults: Faults) -> bool | None:
    """Whether the requirement fails on the vehicle in which just these faults may come; None: no answer."""
    program = without(breaking, faults)
    asking = Asking(program, form_expressions(requirement.form), Budget(EACH), asides=False)
    answer = asking.fails(requirement.form)
    return True if isinstance(answer, Seen) else False if isinstance(answer, CannotBe) else None


def by_asking_each(breaking: Breaking, requirement: Requirement) -> set[Faults] | None:
    """The minimal failing sets up to the order; None where some answer is missing."""
    found: set[Faults] = set()
    for size in range(ORDER + 1):
        for some in combinations(range(len(breaking.names)), size):
            faults = frozenset(some)
            if any(breaking.clash(a, b) for a, b in combinations(some, 2)):
                continue
            answer = fails(breaking, requirement, faults)
            if answer is None:
                return None
            if answer and not any(each <= faults for each in found):
                found.add(faults)
    return found


def compared(which: Iterable[int]) -> tuple[Counter[str], list[str]]:
    """What came of the comparison, and every disagreement."""
    counts: Counter[str] = Counter()
    wrong: list[str] = []
    for seed, breaking, asked in vehicles(which):
        hunt = Hunt(breaking, asked, Budget(120))
        several = [cuts for each in asked if _tells(cuts := cuts_of(hunt, each, ORDER))][:MOST_TELLING]
        for cuts in several:
            expected = by_asking_each(breaking, cuts.requirement)
            if expected is None:
                counts["not known"] += 1
                continue
            wrong += [f"{seed} {cuts.requirement.name}: {each}" for each in complaints(cuts, expected)]
            counts["not decided"] += cuts.complete != ORDER or bool(cuts.barred)
            counts[type(cuts.requirement.form).__name__] += 1
            counts.update(f"order {len(each.faults)}" for each in cuts.sets)
            counts["none"] += not cuts.sets
    return counts, wrong


def _tells(cuts: Cuts) -> bool:
    """Not one of the many that fail with no fault, or cannot fail."""
    return any(each.faults for each in cuts.sets) or cuts.requirement.name.endswith(("wrong", "0"))


def complaints(cuts: Cuts, expected: set[Faults]) -> Iterator[str]:
    found = {each.faults for each in cuts.sets}
    if more := found - expected:
        yield f"no cut sets: {sorted(map(sorted, more))}"
    if cuts.complete is None:
        return
    asked = {e for e in expected if len(e) <= cuts.complete and not any(b.faults <= e for b in cuts.barred)}
    if missing := asked - found:
        yield f"missing: {sorted(map(sorted, missing))}"


def test_cut_sets_are_the_minimal_failing_sets() -> None:
    """Asked one by one, just the same sets make the requirement fail."""
    counts, wrong = compared(SEEDS)
    assert not wrong
    assert counts["order 2"] >= 2, counts


@pytest.mark.long
def test_campaign() -> None:
    counts, wrong = compared(seeds(200))
    print(dict(counts))
    assert not wrong
