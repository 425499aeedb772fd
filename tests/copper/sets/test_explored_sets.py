"""Cut sets of random vehicles against brute force: an explorer that breaks the parts itself, asked with each set of
faults."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.campaign import seeds
from tests.copper.breakable import breakable_vehicle
from tests.copper.cutting import Cuttings, compare_cuts

SEEDS = (0, 2, 3, 4)
MOST = 14  # faults that can matter to a requirement
LIMIT = 1_000  # states of one requirement with one set
REGRESSIONS = [Path(__file__).parents[1] / "regressions" / "overdue-in-a-quick-story.circuit"]


def run(seed: int, tally: Cuttings, most: int, seconds: float = 20.0) -> list[str]:
    complaints = compare_cuts(breakable_vehicle(seed), 2, LIMIT, most, tally, seconds)
    return [f"vehicle {seed}, {line}" for line in complaints]


def test_cut_sets_are_those_of_brute_force() -> None:
    """None is missing, none is too big, none is no cut set."""
    tally = Cuttings()
    complaints = [line for seed in SEEDS for line in run(seed, tally, MOST)]
    assert not complaints, "\n".join(complaints)
    assert tally.sets[1] >= 5
    assert tally.sets[2] >= 3


@pytest.mark.long
def test_cut_sets_are_those_of_brute_force_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many vehicles as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    tally = Cuttings()
    complaints = [line for seed in seeds(10) for line in run(seed, tally, 20, 60.0)]
    with capsys.disabled():
        print("", tally.line(), sep="\n")
    assert not complaints, "\n".join(complaints)


@pytest.mark.parametrize("path", REGRESSIONS, ids=lambda path: path.stem)
def test_what_once_was_wrong(path: Path) -> None:
    """Each says in its first lines what was wrong."""
    assert not compare_cuts(path.read_text(encoding="utf-8"), 2, LIMIT, 20, Cuttings())
