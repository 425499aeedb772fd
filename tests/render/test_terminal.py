"""The two sample reports as a terminal shows them, and what width, colour and encoding change about it."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render, show
from logiccheck.report.report import Report
from tests.render.machines import ACCEPTED, BACK, TO_ACCEPT
from tests.report.samples import BAD, GOOD

HERE = Path(__file__).parent
PLAIN = Look(width=None, colour=False, ascii=False)


@pytest.mark.parametrize(
    ("report", "look", "snapshot"),
    [
        (BAD, PLAIN, "bad.txt"),
        (GOOD, PLAIN, "good.txt"),
        (BAD, Look(width=60, colour=False, ascii=True), "bad-narrow-ascii.txt"),
    ],
)
def test_snapshot(report: Report, look: Look, snapshot: str) -> None:
    """The whole text, to the last character."""
    assert render(report, look) == (HERE / snapshot).read_text(encoding="utf-8")


def test_piped_text_is_never_cut_or_wrapped() -> None:
    """Without a width every sentence of the report stands whole on one line."""
    lines = [line.strip() for line in render(BAD, PLAIN).splitlines()]
    assert BAD.opening in lines
    assert BAD.closing in lines
    assert "Unbroken since 2 s, and so for longer than 4 min: bilge_pump, while key is off." in lines


def test_narrow_text_keeps_to_its_width() -> None:
    """With a width no sentence is longer; only the user's own lines and words that cannot be broken are."""
    text = render(GOOD, Look(width=60, colour=False, ascii=False))
    assert max(len(line) for line in text.splitlines()) <= 60


def test_a_wide_table_goes_on_below() -> None:
    """Columns that do not fit stand in a second piece, with the rows that change in it; no column is lost."""
    first, second = render(BAD, Look(width=60, colour=False, ascii=True)).split("just after 4 min 2 s\n")
    assert "at first  1 s\n" in first
    table = second.split("\n\n")[0].splitlines()
    assert [line.split() for line in table[1:]] == [["timers", "hold", "ends"]]


def test_ascii_draws_with_ascii() -> None:
    """Our own drawing needs no other characters; the user's words stay as they are."""
    text = render(BAD, Look(width=None, colour=False, ascii=True))
    assert {c for c in text if ord(c) > 127} == set("üÖ")


@pytest.mark.parametrize("report", [BAD, GOOD])
def test_colours_change_no_word(report: Report) -> None:
    """In colours the same lines appear in the same order; without them no escape sequence is written."""
    import re

    coloured, plain = io.StringIO(), io.StringIO()
    show(report, Look(width=100, colour=True, ascii=False), coloured)
    show(report, Look(width=100, colour=False, ascii=False), plain)
    assert "\x1b[" in coloured.getvalue()
    assert "\x1b" not in plain.getvalue()
    bare = re.sub(r"\x1b\[[0-9;]*m", "", coloured.getvalue())
    assert [line.rstrip() for line in bare.splitlines()] == plain.getvalue().splitlines()


def test_first_and_last_line() -> None:
    """The first line is the opening, the last the verdict with its counts."""
    lines = render(BAD, PLAIN).splitlines()
    assert (lines[0], lines[-1]) == (BAD.opening, BAD.closing)


def test_whose_word_it_is() -> None:
    """What is accepted is told in short and called so; the line that would accept what is not stands far from it, uncut."""
    lines = render(ACCEPTED, PLAIN).splitlines()
    at = lines.index("accepted: Nothing depends on the sense horn_key.")
    assert lines[at + 4 : at + 6] == [
        "  Accepted by R. Brandt on 2026-11-02: We live with it.  [boat.circuit:80]",
        "  more: logiccheck about unused-sense",
    ]
    assert 'FAILS, accepted  no_flat_battery "The battery lasts"' in lines
    assert "  FAILS, accepted  no_flat_battery  never bilge_pump while key is off for longer than 4 min" in lines
    narrow = render(ACCEPTED, Look(width=60, colour=False, ascii=True)).splitlines()
    back = lines.index(f"  {BACK.sentence}  [boat.circuit:80]")
    assert lines[back + 1] == ""
    assert lines[lines.index("All requirements") - 2] == f"  {TO_ACCEPT.lead} {TO_ACCEPT.line}"
    assert f"  {TO_ACCEPT.lead} {TO_ACCEPT.line}" in narrow
