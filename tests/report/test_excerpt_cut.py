"""A long line is shown only around what a sentence points at, and the marks stay under the same letters."""

from __future__ import annotations

from logiccheck.base.span import Span
from logiccheck.report.excerpt import MARKED, WHOLE, excerpt

LONG = "".join(f"word{number:03d} " for number in range(100))


def shown(*words: str, text: str = LONG) -> tuple[str, list[str]]:
    """The line as shown where these words are marked, and what stands above each mark."""
    spans = [Span("v", text.index(word), text.index(word) + len(word)) for word in words]
    found = excerpt(spans, {"v": text})
    assert found is not None
    (line,) = found.lines
    return line.text, [line.text[begin:end] for begin, end in line.marks]


def test_a_line_of_usual_length_is_whole() -> None:
    """Nothing is cut from it."""
    assert shown("word003", text=LONG[:WHOLE]) == (LONG[:WHOLE], ["word003"])


def test_around_one_mark() -> None:
    """At the begin, in the middle, at the end: dots stand where something was left out."""
    text, marked = shown("word000")
    assert marked == ["word000"]
    assert text.startswith("word000 word001 ")
    assert text.endswith("...")
    text, marked = shown("word050")
    assert marked == ["word050"]
    assert text[:3] == text[-3:] == "..."
    text, marked = shown("word099")
    assert marked == ["word099"]
    assert text.startswith("...")
    assert text.endswith("word099 ")
    assert len(text) < WHOLE


def test_around_several_marks() -> None:
    """Marks far apart are all shown, with one gap between; near ones have none."""
    text, marked = shown("word010", "word080")
    assert marked == ["word010", "word080"]
    assert text.count("...") == 3
    text, marked = shown("word010", "word012")
    assert marked == ["word010", "word012"]
    assert text.count("...") == 2


def test_a_long_mark_is_cut_itself() -> None:
    """Of a name as long as the line the begin is shown."""
    text, marked = shown("x" * 900, text="rule " + "x" * 900)
    assert marked == ["x" * MARKED]
    assert len(text) < WHOLE
