"""Each sentence about the forms of requirements, by the judge and by the engine."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.model.judge import violated
from logiccheck.model.play import play
from tests.engine.test_meaning_forms import is_as, signals
from tests.meaning.forms import CALLS, LONGER, ONLY_AFTER, PLAIN, WAITS
from tests.meaning.sentences import OnSignals, rows
from tests.model.driven import SECOND, told

ALL = (*LONGER, *CALLS, *ONLY_AFTER, *WAITS, *PLAIN)


@pytest.mark.parametrize("case", rows(ALL, "judge"))
def test_the_judge_says_so(case: OnSignals) -> None:
    """Of the signals as played."""
    vehicle = signals(case.form, case.p, case.q, case.r)
    timeline = play(vehicle, [], [], 30 * SECOND, {})
    answer = told(violated(timeline, vehicle.requirements[0].form))
    assert answer == case.answer.replace("no case", "holds")


@pytest.mark.parametrize("case", rows(ALL, "engine"))
def test_the_engine_says_so(case: OnSignals) -> None:
    """Down to the instant at which it fails."""
    (verdict,) = check_program(signals(case.form, case.p, case.q, case.r)).verdicts
    if case.answer in ("holds", "no case"):
        assert verdict.kind is (Kind.PROVED if case.answer == "holds" else Kind.NO_CASE), verdict
    else:
        assert is_as(verdict, case.answer), verdict
