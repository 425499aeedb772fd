"""Wide letters in a line, in a name and in a cell: what stands below stays below."""

from __future__ import annotations

from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render
from logiccheck.report.report import Excerpt, Level, Line, Notice, Outcome, Report


def test_carets_under_wide_letters() -> None:
    """A wide letter takes two columns, a combining mark none, and a mark may stand behind the end."""
    line = Line(1, "\u6cf5\u6cf5 e\u0301 pump", ((0, 2), (6, 10), (10, 11)))
    notice = Notice(Level.MISTAKE, "name", "E1", "Sentence.", (Excerpt("v:1:1", (line,)),), "", "Advice.")
    text = render(Report("opening", "", Outcome.MISTAKE, notices=(notice,)), Look(None, False, True))
    assert "    1 | \u6cf5\u6cf5 e\u0301 pump\n      | ^^^^   ^^^^^\n" in text
