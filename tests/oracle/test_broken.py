"""The explorer of broken vehicles: what each mode of each part does, worked out by hand."""

from __future__ import annotations

import pytest

from tests.oracle.broken.asked import Explored
from tests.oracle.broken.cases import CASES_BROKEN, OK, Broken
from tests.oracle.broken.parts import When, whens
from tests.oracle.cases import CASES, Case
from tests.oracle.loading import loaded
from tests.oracle.oracle import Answer

LIMIT = 20_000
LONG = {"C7"}  # takes most of a minute


def said(answer: Answer) -> str:
    return " ".join(str(x) for x in (answer.kind.value, answer.moments) if x)


@pytest.mark.parametrize("case", CASES_BROKEN, ids=lambda case: f"{case.fault}, {case.asked}")
def test_what_each_fault_does(case: Broken) -> None:
    """Each fault does to the requirement what it should; whole, the requirement is proved."""
    vehicle = Explored(loaded(case.text), LIMIT)
    requirement = vehicle.program.requirements[0]
    assert said(vehicle.whole(requirement)) == OK
    fault = next(x for x in vehicle.faults if x.name == case.fault)
    found = {when: said(vehicle.with_faults(requirement, {fault: when})) for when in whens(fault)}
    expected = {When.START: case.start, When.LATER: case.later, When.LOOSE: case.loose}
    assert found == {when: kind for when, kind in expected.items() if kind}


@pytest.mark.parametrize("case", [case for case in CASES if case.name not in LONG], ids=lambda case: case.name)
def test_where_nothing_breaks_nothing_changes(case: Case) -> None:
    """The other way of making reactions gives the same, as long as no fault is there."""
    vehicle = Explored(loaded(case.text), LIMIT)
    for requirement in vehicle.program.requirements:
        assert vehicle.with_faults(requirement, {}) == vehicle.whole(requirement)
