"""What the report says where it is not decided whether what is given stops time: the lines in doubt, and what helps."""

from __future__ import annotations

import pytest

from logiccheck.engine import stops
from logiccheck.report.report import VerdictPart
from logiccheck.session.checking import check

TEXT = """
vehicle "Doubt"
world
    x contact
    y contact
harness
    source plus
    relay k coil one_shot(not x, from 1 s to 2 s)
given
    never not y and not x
    y changes only while x
    y changes only while on_delay(y, 1 s)
    not y after k has lasted 1 s
requirements
    danger quiet never k and y
"""


def part() -> VerdictPart:
    """What is said of the requirement."""
    answer = check("doubt.circuit", lambda _: TEXT.encode(), 30.0, (), None)
    (found,) = answer.report.verdicts
    return found


def test_lines_in_doubt_are_named() -> None:
    """Only a relay that drops early lets time go on, so more time is no help."""
    found = part()
    assert found.sentence == (
        "Not decided: whether what is given can bring time to a stop could not be found out, and more time does not "
        "help. Give less: see `logiccheck about not-decided`."
    )
    assert found.remarks[0] == "In doubt: `y changes only while on_delay(y, 1 s)`, `not y after k has lasted 1 s`."


def test_time_that_ran_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Then more of it may help."""
    monkeypatch.setattr(stops, "ways_on", _too_slow)
    found = part()
    assert found.sentence == (
        "Not decided: the time to find out whether what is given can bring time to a stop ran out. "
        "More time: --budget SECONDS."
    )
    assert found.remarks[0] == "In doubt: `not y after k has lasted 1 s`."


def _too_slow(*_: object) -> None:
    raise stops.OutOfTime
