"""The engine against z3's fixed-point engine, on random small programs: on the same cones, with times as real numbers."""

from __future__ import annotations

import pytest

from tests.bench.against import Row, Unsettled, rows
from tests.campaign import seeds
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = range(500_000, 500_040)
LIMIT = 10.0  # seconds for one question, for either
DEPTH = 4  # moments that z3's bounded search looks at


def asked(seed: int) -> list[Row]:
    """What both say of the questions of one random program; nothing if its moments may fail to settle."""
    try:
        return list(rows(loaded(random_program(seed).text), LIMIT, DEPTH))
    except Unsettled:
        return []


def told(found: dict[int, list[Row]]) -> str:
    every = [row for one in found.values() for row in one]
    both = [row for row in every if row.ours is not None and row.fixed.happens is not None]
    timed = sum(any(row.clocks for row in one) for one in found.values())
    return (
        f"programs: {len(found)}, in which every moment settles: {sum(bool(one) for one in found.values())}, "
        f"with clocks in a question: {timed}; questions: {len(every)}, decided by both: {len(both)}, "
        f"not by check: {sum(row.ours is None for row in every)}, not by z3: {sum(r.fixed.happens is None for r in every)}"
    )


def agree(seeds: range) -> str:
    """Raises AssertionError on a contradiction; what was compared, in words."""
    found = {seed: asked(seed) for seed in seeds}
    wrong = [
        f"program {seed}, {row.name}: {row.verdict.kind.value}, z3 says {row.fixed.happens}, {row.bounded.happens}"
        for seed, one in found.items()
        for row in one
        if row.contradicted
    ]
    assert not wrong, "\n".join(wrong)
    return told(found)


def test_the_fixed_point_engine_agrees(capsys: pytest.CaptureFixture[str]) -> None:
    summary = agree(SEEDS)
    with capsys.disabled():
        print("", summary, sep="\n")


@pytest.mark.campaign
def test_the_fixed_point_engine_agrees_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """As many programs as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    summary = agree(seeds(20))
    with capsys.disabled():
        print("", summary, sep="\n")
