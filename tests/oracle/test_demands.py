"""Whether time can stop, engine against explorer, on vehicles in which what is given demands much."""

from __future__ import annotations

from collections import Counter

import pytest

from logiccheck.engine.verdict import Kind, Obstacle, Undecided
from tests.campaign import seeds
from tests.oracle.agreement import compare
from tests.oracle.demands import demanding_vehicle
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded

SEEDS = 30
LIMIT = 6_000  # states
SECONDS = 10.0  # for the engine, for each group of lines and for the requirement


def run(seeds: range) -> tuple[Counter[str], list[str]]:
    """What came of the vehicles of these seeds, and what engine and explorer contradict each other in."""
    counts: Counter[str] = Counter()
    complaints: list[str] = []
    for seed in seeds:
        try:
            (found, *_) = compare(loaded(demanding_vehicle(seed)), SECONDS, LIMIT)
        except TooBig:
            counts["too big"] += 1
            continue
        verdict = found.verdict
        counts[f"{verdict.kind.value} {verdict.obstacle.value if verdict.obstacle else ''}".strip()] += 1
        if verdict.undecided:
            counts[verdict.undecided.value] += 1
        complaints += [f"vehicle {seed}: {found.complaint}"] if found.complaint else []
    return counts, complaints


def test_engine_and_explorer_agree_whether_time_stops() -> None:
    """Never contradict each other; both answers come often, and next to nothing is left open."""
    counts, complaints = run(range(SEEDS))
    assert not complaints, "\n".join(complaints)
    assert counts[Kind.PROVED.value] > SEEDS / 3
    assert counts[f"{Kind.BLOCKED.value} {Obstacle.TIME_STOPS.value}"] > SEEDS / 10
    assert counts[Kind.NOT_DECIDED.value] <= SEEDS / 30
    assert counts[Kind.NOT_DECIDED.value] == counts[Undecided.TIME_MAY_STOP.value]


@pytest.mark.campaign
def test_engine_and_explorer_agree_whether_time_stops_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """As many vehicles as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    counts, complaints = run(seeds())
    with capsys.disabled():
        print("", *(f"{name}: {n}" for name, n in counts.most_common()), sep="\n")
    assert not complaints, "\n".join(complaints)
