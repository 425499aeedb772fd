"""The check of a whole program: which requirements, how long, how it is interrupted."""

from __future__ import annotations

import time

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Undecided
from tests.engine.test_contract import decided
from tests.model.driven import boxed, program
from tests.oracle.cases import CASES, Case
from tests.oracle.loading import loaded

TWO = """
vehicle "Test"
world
    a contact
    b contact
requirements
    danger safe never a and not a
    danger unsafe never b
"""


class Stop:
    """Progress that is interrupted when the check comes to this name."""

    def __init__(self, name: str = "") -> None:
        self.name, self.seen = name, list[str]()

    def __call__(self, name: str) -> None:
        self.seen.append(name)
        if name == self.name:
            raise KeyboardInterrupt


def test_progress_names_what_comes_next() -> None:
    """What blocks verdicts first, then the requirements in their order."""
    progress = Stop()
    assert not check_program(program(TWO), progress=progress).interrupted
    assert progress.seen == ["settling", "what is given", "safe", "unsafe"]


@pytest.mark.parametrize(
    ("name", "decided"),
    [
        pytest.param("settling", 0),
        pytest.param("what is given", 0),
        ("safe", 0),
        ("unsafe", 1),
    ],
)
def test_interrupted(name: str, decided: int) -> None:
    """What was decided stays, the rest is not decided."""
    try:
        check = check_program(program(TWO), progress=Stop(name))
    except KeyboardInterrupt:
        pytest.fail("the interrupt went through")
    assert check.interrupted
    assert [v.requirement.name for v in check.verdicts] == ["safe", "unsafe"]
    assert [v.kind for v in check.verdicts[:decided]] == [Kind.PROVED] * decided
    assert {(v.kind, v.undecided) for v in check.verdicts[decided:]} == {(Kind.NOT_DECIDED, Undecided.INTERRUPTED)}


def test_only_some() -> None:
    """The others are not in the answer, nor in the progress."""
    progress = Stop()
    check = check_program(program(TWO), progress=progress, only=["unsafe"])
    assert [(v.requirement.name, v.kind) for v in check.verdicts] == [("unsafe", Kind.FAILS)]
    assert "safe" not in progress.seen


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_no_time_gives_no_wrong_verdict(case: Case) -> None:
    """Without any time the answer is "not decided", or a right one that took none."""
    vehicle = loaded(case.text)
    begin = time.monotonic()
    hasty, patient = check_program(vehicle, seconds_each=0), check_program(vehicle)
    assert time.monotonic() - begin < 10
    for quick, sure in zip(hasty.verdicts, patient.verdicts, strict=True):
        assert quick.kind in (Kind.NOT_DECIDED, Kind.BLOCKED) or decided(quick) == decided(sure)


def test_a_hard_question_ends_in_time() -> None:
    """A long timer against a blinker: it fails after some 400 moments; time runs out before, and is said to."""
    more = "requirements\n    danger d never on_delay(x, 200.5 s) and on_delay(lamp, 0.4 s)"
    vehicle = boxed("output lamp when blink(x, on 0.5 s, off 0.5 s)", more=more)
    begin = time.monotonic()
    (verdict,) = check_program(vehicle, seconds_each=0.5).verdicts
    assert time.monotonic() - begin < 60
    assert (verdict.kind, verdict.undecided) == (Kind.NOT_DECIDED, Undecided.BUDGET)
    assert verdict.covered > 0
