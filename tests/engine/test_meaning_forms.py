"""Requirements on three signals of a given course, decided by the engine, down to the instant at which they fail.

The rows are those that `tests.model` has the judge decide; here the signals are rules made of timers.
"""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.lang.program import Program
from tests.engine.following import wave
from tests.model.driven import micros, program
from tests.model.test_requirements import CASES

NO_CASE = {"F13"}  # what holds because its situation cannot occur


def signals(requirement: str, p: str, q: str, r: str) -> Program:
    rules = "".join(f"    rule {name} = {wave(text)}\n" for name, text in zip("pqr", (p, q, r), strict=True))
    return program(
        'vehicle "Test"\nharness\n    source plus\n    wire feed from plus\n'
        f'controller "Box" powered by feed\n{rules}requirements\n    danger d {requirement}\n'
    )


def is_as(verdict: Verdict, expected: str) -> bool:
    """Whether the verdict is that of the judge: "holds", "at 5", or "after 5" (in the moment at 5, or the one
    just after it, at which something is overdue)."""
    if expected == "holds":
        return verdict.kind in (Kind.PROVED, Kind.NO_CASE)
    assert verdict.story is not None
    word, time = expected.split()
    return verdict.story.steps[-1].time == micros(time) and (word == "after" or not verdict.story.overdue)


@pytest.mark.parametrize(("case", "form", "p", "q", "r", "expected"), CASES, ids=[row[0] for row in CASES])
def test_a_requirement_on_three_signals(case: str, form: str, p: str, q: str, r: str, expected: str) -> None:
    """It fails in a story that ends at the first instant at which that is certain, or it is proved."""
    (verdict,) = check_program(signals(form, p, q, r)).verdicts
    assert is_as(verdict, expected), verdict
    if expected == "holds":
        assert verdict.kind is (Kind.NO_CASE if case in NO_CASE else Kind.PROVED)


def test_a_condition_that_begins_just_after_a_moment() -> None:
    """`previous(x)` is true from just after 1 on, so that its first instants may be answered just after 3."""
    form = "previous(p) calls for previous(q) no later than 2 s"
    (verdict,) = check_program(signals(form, "[1,..)", "[3,..)", "")).verdicts
    assert verdict.kind is Kind.PROVED
