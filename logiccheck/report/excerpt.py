"""The user's own lines, with the place that a sentence speaks of marked in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logiccheck.base.place import place, source_text
from logiccheck.base.span import NOWHERE, Span
from logiccheck.lang.program import And, Compare, Const, Expr, Not, Or, Position, Signal
from logiccheck.report.report import Excerpt, Line
from logiccheck.report.words_causes import condition_at

WHOLE = 140  # characters of a line that are shown whole; of a longer one only what stands around its marks
AROUND = 40
MARKED = 60  # characters shown of a long mark
LEFT_OUT = "..."
MOST_IN_A_SENTENCE = 200  # characters of a condition


def where(span: Span, files: Mapping[str, str]) -> str:
    """ "van.circuit:58", or nothing for what nobody wrote."""
    if span == NOWHERE or span.file not in files:
        return ""
    at = place(span, files[span.file])
    return f"{at.file}:{at.line}"


def excerpt(spans: Iterable[Span], files: Mapping[str, str]) -> Excerpt | None:
    """The lines on which the spans begin, each span marked unless it is the whole line; those in the file of the first.

    None for what nobody wrote.
    """
    written = [span for span in spans if span != NOWHERE and span.file in files]
    known = sorted((s for s in written if s.file == written[0].file), key=lambda s: (s.begin, s.end))
    if not known:
        return None
    first = place(known[0], files[known[0].file])
    lines: dict[int, Line] = {}
    for span in known:
        at = place(span, files[span.file])
        before = lines.get(at.line, Line(at.line, at.text, ())).marks
        mark = (at.column - 1, at.column - 1 + at.width)
        marks = before if _is_whole_line(mark, at.text) else tuple(dict.fromkeys((*before, mark)))
        lines[at.line] = Line(at.line, at.text, marks)
    return Excerpt(str(first), tuple(_cut(lines[number]) for number in sorted(lines)))


def _cut(line: Line) -> Line:
    """A long line without what is far from its marks (or from its begin, if it has none); the marks move with it."""
    if len(line.text) <= WHOLE:
        return line
    ends = [(begin, min(end, begin + MARKED)) for begin, end in sorted(line.marks or ((0, MARKED),))]
    kept: list[tuple[int, int]] = []
    for begin, end in ends:
        low, high = max(0, begin - AROUND), min(len(line.text), end + AROUND)
        if kept and low <= kept[-1][1] + len(LEFT_OUT):
            kept[-1] = (kept[-1][0], max(high, kept[-1][1]))
        else:
            kept.append((low, high))
    text = ""
    marks: list[tuple[int, int]] = []
    for low, high in kept:
        text += LEFT_OUT if low else ""
        inside = [(begin, end) for begin, end in ends if low <= begin < high]
        marks += [(begin - low + len(text), end - low + len(text)) for begin, end in inside]
        text += line.text[low:high]
    text += LEFT_OUT if kept[-1][1] < len(line.text) else ""
    return Line(line.number, text, tuple(marks) if line.marks else ())


def _is_whole_line(mark: tuple[int, int], text: str) -> bool:
    """Carets under all of a line would point at nothing."""
    return text[mark[0] : mark[1]].strip() == text.split("#")[0].strip()


def as_written(expr: Expr, files: Mapping[str, str]) -> str:
    """The expression in the user's own characters, white space folded; what only we put together, from its parts."""
    if expr.span != NOWHERE and expr.span.file in files:
        return source_text(expr.span, files[expr.span.file])
    match expr:
        case Const(value=value):
            return "true" if value else "false"
        case Not(x=x):
            return f"not {_inside(x, files)}"
        case And(parts=parts):
            return " and ".join(_inside(part, files) for part in parts)
        case Or(parts=parts):
            return " or ".join(_inside(part, files) for part in parts)
        case Signal(name=name) | Position(name=name) | Compare(name=name):
            return name
        case _:
            return str(expr)


def in_a_sentence(expr: Expr, files: Mapping[str, str]) -> str:
    """The expression as written; where it would make a sentence that nobody reads to its end, by its place."""
    text, at = as_written(expr, files), where(expr.span, files)
    return condition_at(at) if len(text) > MOST_IN_A_SENTENCE and at else text


def _inside(expr: Expr, files: Mapping[str, str]) -> str:
    """The same as a part of a larger expression."""
    text = as_written(expr, files)
    return text if isinstance(expr, Signal | Position | Compare | Const) else f"({text})"
