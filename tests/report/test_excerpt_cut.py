"""A long line is shown only around what a sentence points at, and the marks stay under the same letters."""

from __future__ import annotations

from logiccheck.base.span import Span
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Never
from logiccheck.report.excerpt import MARKED, WHOLE, as_written, excerpt, in_a_sentence

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


def test_a_condition_in_a_sentence() -> None:
    """A long one is called by its place; a short one stands there as it was written."""
    names = [f"switch_{number:02}" for number in range(20)]
    world = "".join(f"    {name} contact\n" for name in names)
    long = " or ".join(names)
    asked = f"    danger a  never {long}\n    danger b  never {names[0]}  or  {names[1]}\n"
    text = f'vehicle "V"\nworld\n{world}requirements\n{asked}'
    loaded = load_text(text)
    assert loaded.program is not None
    first, second = (requirement.form for requirement in loaded.program.requirements)
    assert isinstance(first, Never)
    assert isinstance(second, Never)
    assert len(as_written(first.p, loaded.texts)) > 200
    assert in_a_sentence(first.p, loaded.texts) == "the condition at test.circuit:24"
    assert in_a_sentence(second.p, loaded.texts) == "switch_00 or switch_01"
