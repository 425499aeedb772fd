"""The block `accepted`: days that there are, marks, kinds by name or code."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from logiccheck.lang.load import load_text
from logiccheck.lang.resolve.accepted import _is_date
from tests.lang.vehicle import around

LINE = 'W101 lamp " Not fitted. " by " R. Brandt " on 2026-11-02 logic 4F1C-9A2E'


def test_a_line_is_read() -> None:
    """Small letters for kinds and marks, hyphens for underlines, no blanks at the ends of texts."""
    text = f'accepted\n    {LINE}\n    unused_name lamp\n        "Gone." by "me" on 2024-02-29 logic 0000-0000\n'
    program = load_text(around(text)).program
    assert program is not None
    first, second = program.accepted
    assert (first.kind, first.about, first.reason, first.by) == ("w101", "lamp", "Not fitted.", "R. Brandt")
    assert (first.on, first.logic) == ("2026-11-02", "4f1c-9a2e")
    assert (second.kind, second.reason, second.on) == ("unused-name", "Gone.", "2024-02-29")


def test_other_lines_are_as_they_were() -> None:
    """What is accepted is no part of the vehicle."""
    with_it, without = load_text(around(f"accepted\n    {LINE}\n")).program, load_text(around("")).program
    assert with_it is not None
    assert without is not None
    assert (with_it.box, with_it.requirements, with_it.wires) == (without.box, without.requirements, without.wires)


def test_days_are_those_of_the_calendar() -> None:
    """Every day of some years, and no other one."""
    days = {(date(1999, 12, 1) + timedelta(days=i)).isoformat() for i in range(1600)}
    for year in (2000, 2001, 2002, 2003):
        for month in range(15):
            for day in range(34):
                text = f"{year:04}-{month:02}-{day:02}"
                assert _is_date(text) == (text in days), text
    assert not _is_date("1900-02-29")
    assert _is_date("2096-02-29")


@pytest.mark.parametrize(
    "text", ["0000-01-01", "2026-1-1", "20260101", "2026-01-01T00:00", "\u0662026-01-01", "2026.01.01"]
)
def test_no_date(text: str) -> None:
    """Another way to write one is none."""
    assert not _is_date(text)
