"""What each fault means: the changed vehicle against an explorer that breaks the parts itself."""

from __future__ import annotations

import pytest

from tests.campaign import seeds
from tests.copper.breakable import breakable_vehicle
from tests.copper.changing import Tally, compare_meaning
from tests.oracle.broken.cases import CASES_BROKEN, Broken

SEEDS = range(6)
LIMIT = 1_000  # states of one requirement


def run(many: range, tally: Tally) -> list[str]:
    return [f"{seed}: {line}" for seed in many for line in compare_meaning(breakable_vehicle(seed), LIMIT, tally)]


@pytest.mark.parametrize("case", CASES_BROKEN, ids=lambda case: f"{case.fault}, {case.asked}")
def test_changed_vehicles_mean_what_was_worked_out_by_hand(case: Broken) -> None:
    """All faults of the vehicles of which one was worked out."""
    assert not compare_meaning(case.text, 20_000, Tally())


def test_changed_vehicles_mean_what_faults_mean() -> None:
    """Every fault, each time it can be there, each requirement that holds whole: the same answer, and as short a story."""
    tally = Tally()
    complaints = run(SEEDS, tally)
    assert not complaints, "\n".join(complaints)
    assert tally.pairs.total() > 500
    assert tally.skipped < tally.pairs.total() / 20


@pytest.mark.long
def test_changed_vehicles_mean_what_faults_mean_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many vehicles as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    tally = Tally()
    complaints = run(seeds(), tally)
    with capsys.disabled():
        print("", *tally.lines(), sep="\n")
    assert not complaints, "\n".join(complaints)
