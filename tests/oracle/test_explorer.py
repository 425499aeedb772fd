"""The explorer itself, on programs whose answers were worked out by hand."""

from __future__ import annotations

import pytest

from tests.oracle.cases_asked import FORMS, GIVEN, TIMERS
from tests.oracle.cases_vehicle import HARNESS, POWER, SETTLING
from tests.oracle.loading import loaded
from tests.oracle.oracle import decide
from tests.oracle.written import Case


@pytest.mark.parametrize("case", FORMS + GIVEN + TIMERS + POWER + HARNESS + SETTLING, ids=lambda case: case.name)
def test_answers_worked_out_by_hand(case: Case) -> None:
    """Each requirement gets its verdict, and its number of moments where there is a story."""
    program = loaded(case.text)
    answers = [decide(program, requirement) for requirement in program.requirements]
    expected = [(kind, moments) for kind, moments in case.expected]
    assert [(x.kind.value, x.moments) for x in answers] == expected
