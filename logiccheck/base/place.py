"""Where a span stands for a person: file, line and column from 1, and the text of the line."""

from __future__ import annotations

import re

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span


@frozen
class Place:
    """`line` and `column` count from 1, `column` in characters; `width` is at least 1 and stays on the line."""

    file: str
    line: int
    column: int
    width: int
    text: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    @property
    def carets(self) -> str:
        """A line of carets that stands under the text of the line, tabs kept."""
        lead = "".join("\t" if c == "\t" else " " for c in self.text[: self.column - 1])
        return lead + "^" * self.width


def place(span: Span, text: str) -> Place:
    """The place of a span in `text`, the whole text of its file."""
    begin = min(span.begin, len(text))
    line = text.count("\n", 0, begin) + 1
    start = text.rfind("\n", 0, begin) + 1
    stop = text.find("\n", begin)
    stop = len(text) if stop < 0 else stop
    width = max(1, min(span.end, stop) - begin)
    return Place(span.file, line, begin - start + 1, width, text[start:stop])


def utf16_column(spot: Place) -> int:
    """The column from 0 in UTF-16 units, as editors count."""
    return len(spot.text[: spot.column - 1].encode("utf-16-le")) // 2


_COMMENT = re.compile(r'("[^"\n]*")|#[^\n]*')


def source_text(span: Span, text: str) -> str:
    """What was written in the span, comments left out and white space folded."""
    return " ".join(_COMMENT.sub(lambda found: found[1] or "", text[span.begin : span.end]).split())


def line_of(place: str) -> tuple[str, int]:
    """The file and the line of "van.circuit:58"; a file may have colons in its name."""
    file, line = place.rsplit(":", 1)
    return file, int(line)


def column_of(place: str) -> tuple[str, int, int]:
    """The file, the line and the column of "van.circuit:58:12"."""
    at_line, column = place.rsplit(":", 1)
    return (*line_of(at_line), int(column))
