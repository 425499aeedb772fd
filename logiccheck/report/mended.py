"""Edits that would mend a requirement, as shown: the user's lines as they would be, with what is new marked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from logiccheck.base.span import Span
from logiccheck.explain.edit import Edit, edited
from logiccheck.explain.mending import Mending
from logiccheck.report import words_edits as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import EditsPart, Excerpt


def edits_part(mending: Mending, files: Mapping[str, str]) -> EditsPart:
    """What came of the search for edits, with `files` as they are."""
    if mending.like:
        return EditsPart(words.mends_too(mending.like))
    if mending.edits:
        return EditsPart(words.mends(len(mending.edits)), tuple(edit_lines(edit, files) for edit in mending.edits))
    return _in_vain(mending)


def calming_part(mending: Mending, files: Mapping[str, str]) -> EditsPart:
    """The same of what comes to no rest."""
    if mending.edits:
        return EditsPart(words.calms(len(mending.edits)), tuple(edit_lines(edit, files) for edit in mending.edits))
    return _in_vain(mending)


def _in_vain(mending: Mending) -> EditsPart:
    if mending.cut is not None:
        return EditsPart(words.not_all_tried(mending.cut))
    return EditsPart(words.none_mends(mending.tried, [kind.value for kind in mending.kinds]))


def edit_lines(edit: Edit, files: Mapping[str, str]) -> tuple[Excerpt, ...]:
    """The lines that it changes, as it makes them."""
    after = edited(edit, files)
    shown = (excerpt(_marks(spans, after.files), after.files) for spans in _by_file(after.spans))
    return tuple(lines for lines in shown if lines is not None)


def _by_file(spans: Sequence[Span]) -> Iterator[list[Span]]:
    for _, together in groupby(spans, key=lambda span: span.file):
        yield list(together)


def _marks(spans: Sequence[Span], files: Mapping[str, str]) -> Iterator[Span]:
    """What was put in; where something was only taken out the whole line, which is shown unmarked."""
    for span in spans:
        text = files[span.file]
        begin, end = span.begin, span.end
        while begin < end and text[begin].isspace():
            begin += 1
        while begin < end and text[end - 1].isspace():
            end -= 1
        if begin < end:
            yield Span(span.file, begin, end)
        else:
            yield _line(span, text)


def _line(span: Span, text: str) -> Span:
    """All of a line that is not comment: no mark is put under that."""
    start = text.rfind("\n", 0, span.begin) + 1
    line = text[start:].partition("\n")[0].partition("#")[0]
    return Span(span.file, start + len(line) - len(line.lstrip()), start + len(line.rstrip()))
