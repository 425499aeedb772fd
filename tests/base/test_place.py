"""Places for people: lines and columns from 1, carets under the text, comments left out of what was written."""

from __future__ import annotations

import pytest

from logiccheck.base.place import place, source_text, utf16_column
from logiccheck.base.span import Span

TEXT = "first\n\tsecond é line\nlast"


@pytest.mark.parametrize(
    ("begin", "end", "at", "carets"),
    [
        (0, 5, "f:1:1", "^^^^^"),
        (6, 6, "f:2:1", "^"),
        (7, 13, "f:2:2", "\t^^^^^^"),
        (14, 99, "f:2:9", "\t       ^^^^^^"),
        (21, 25, "f:3:1", "^^^^"),
        (25, 25, "f:3:5", "    ^"),
        (999, 999, "f:3:5", "    ^"),
    ],
)
def test_place(begin: int, end: int, at: str, carets: str) -> None:
    """A span over several lines is marked on its first; one at the end, or beyond, just behind it."""
    spot = place(Span("f", begin, end), TEXT)
    assert (str(spot), spot.carets) == (at, carets)


def test_utf16_column() -> None:
    """Editors count from 0 in UTF-16 units: a sign beyond the first plane counts twice."""
    text = "\N{OLD ITALIC LETTER A}x"
    assert utf16_column(place(Span("f", 1, 2), text)) == 2


def test_source_text() -> None:
    """White space is folded and comments are left out; a sign in quotes is no comment."""
    text = 'a   # not this\n    and "b # c"'
    assert source_text(Span("f", 0, len(text)), text) == 'a and "b # c"'
