"""Single faults of random vehicles against brute force: every fault, each time it can be there, each requirement."""

from __future__ import annotations

from pathlib import Path

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.answers import Broken
from logiccheck.engine.check import check_program
from logiccheck.study.faults import faults
from tests.campaign import seeds
from tests.copper.agreement import Comparing, Tally
from tests.copper.breakable import breakable_vehicle
from tests.oracle.broken.asked import Explored
from tests.oracle.loading import loaded

SEEDS = range(3, 9)
LIMIT = 1_000  # states of one requirement
REGRESSIONS = sorted((Path(__file__).parent / "regressions").glob("*.circuit"))


def found(vehicle: Explored, seconds: float, one_by_one: bool = False) -> Broken:
    """What the checker says of all single faults."""
    whole = check_program(vehicle.program, seconds)
    broken = faults(vehicle.program, whole, Budget(40 * seconds), lambda _: None, one_by_one, seconds)
    assert not broken.bugs, broken.bugs
    return broken


def run(text: str, tally: Tally, seconds: float = 10.0, one_by_one: bool = False) -> list[str]:
    vehicle = Explored(loaded(text), LIMIT)
    return Comparing(vehicle, found(vehicle, seconds, one_by_one), tally).all()


def test_what_single_faults_do_is_as_explored() -> None:
    """The same answer for every pair, stories as short, each of which plays on the vehicle that the explorer breaks."""
    tally = Tally()
    complaints = [f"{seed}: {line}" for seed in SEEDS for line in run(breakable_vehicle(seed), tally)]
    assert not complaints, "\n".join(complaints)
    assert tally.pairs.total() > 500
    assert tally.stories > 20
    assert tally.undecided + tally.skipped < tally.pairs.total() / 20


@pytest.mark.parametrize("seed", [3])
def test_one_by_one_comes_to_the_same(seed: int) -> None:
    """Each fault in a vehicle of its own."""
    tally = Tally()
    assert not run(breakable_vehicle(seed), tally, one_by_one=True)
    assert not tally.undecided


@pytest.mark.long
@pytest.mark.parametrize("one_by_one", [False, True], ids=["together", "one by one"])
def test_what_single_faults_do_is_as_explored_at_length(one_by_one: bool, capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many vehicles as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    tally, complaints = Tally(), []
    for seed in seeds(20):
        try:
            complaints += [f"{seed}: {line}" for line in run(breakable_vehicle(seed), tally, 60.0, one_by_one)]
        except Exception as error:  # the next vehicles are to be compared all the same
            complaints.append(f"{seed}: {type(error).__name__}: {error}")
    with capsys.disabled():
        print("", *tally.lines(), sep="\n")
    assert not complaints, "\n".join(complaints)


@pytest.mark.parametrize("path", REGRESSIONS, ids=lambda path: path.stem)
def test_what_once_was_wrong(path: Path) -> None:
    """Vehicles on which the two once differed; each says in its first lines what was wrong."""
    assert not run(path.read_text(encoding="utf-8"), Tally())
