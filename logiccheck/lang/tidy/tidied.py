"""A text in the house layout: the same words in the same order, the same comments, other white space."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from itertools import chain
from typing import Any

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.mistakes.files import CannotOpen
from logiccheck.lang.parse import parse
from logiccheck.lang.reading import Reader, SourceFile, Unreadable, decode
from logiccheck.lang.tidy.breaking import Laid, laid_out
from logiccheck.lang.tidy.columns import in_columns
from logiccheck.lang.tidy.rows import Blank, Code, Remark, comments_of, rows_of

MOST_BLANK = 2  # lines, one after the other

_MARK = b"\xef\xbb\xbf"
_LINE_END = re.compile(rb"\r\n|\n|\r")


@frozen
class Tidied:
    """What `before`, the text of a file, is in the house layout: `after`, and `raw` as bytes, with the line ends and
    the byte order mark that the file had."""

    before: str
    after: str
    raw: bytes

    @property
    def changed(self) -> bool:
        return self.before != self.after


@frozen
class Unread:
    """The text of a file that has mistakes; it is left alone. `source` is None where there is no text."""

    source: SourceFile | None
    diagnostics: tuple[Diagnostic, ...]


class Untrue(Exception):
    """The text in the house layout does not say what it said before: a mistake in this program."""


def tidied(path: str, reader: Reader) -> Tidied | Unread:
    """The file at `path`, which need not be a whole vehicle, in the house layout.

    Raises Untrue where the new text, read again, means something else or has other comments.
    """
    raw, whole = reader(path), Span(path, 0, 0)
    if isinstance(raw, Unreadable):
        return Unread(None, (Diagnostic(CannotOpen(path, raw.value, ()), whole),))
    source = decode(path, raw, whole)
    if isinstance(source, Diagnostic):
        return Unread(None, (source,))
    written, found = parse(source.text, path)
    if found:
        return Unread(source, found)
    after = _text(source.text, path)
    again, unread = parse(after, path)
    if unread or _without_places(again.blocks) != _without_places(written.blocks):
        raise Untrue(f"{path} would mean something else")
    if comments_of(after, path) != comments_of(source.text, path):
        raise Untrue(f"{path} would have other comments")
    return Tidied(source.text, after, in_bytes(after, raw))


def _text(text: str, path: str) -> str:
    rows = laid_out(rows_of(text, path))
    lines = [_line(row, gaps) for row, gaps in zip(rows, in_columns(rows), strict=True)]
    done: list[str] = []
    for line in lines:
        if line or (done and any(done[-MOST_BLANK:])):
            done.append(line)
    while done and not done[-1]:
        done.pop()
    return "".join(line + "\n" for line in done)


def _line(row: Blank | Remark | Code | Laid, gaps: Sequence[int]) -> str:
    match row:
        case Remark(text, indent):
            return " " * indent + text
        case Laid(row=code):
            words = [*(token.text for token in code.tokens), *([code.comment] if code.comment else [])]
            return " " * code.indent + "".join(chain(*zip((" " * gap for gap in gaps), words, strict=True)))
        case _:
            return ""


def in_bytes(text: str, raw: bytes) -> bytes:
    """The text as UTF-8 with the first line end of `raw`, and its byte order mark if it has one."""
    end = _LINE_END.search(raw)
    made = text.encode("utf-8").replace(b"\n", end[0] if end else b"\n")
    return _MARK + made if raw.startswith(_MARK) else made


def _without_places(node: Any) -> Any:
    """What a part of a tree says, wherever it stands."""
    if isinstance(node, Span):
        return None
    if isinstance(node, tuple):
        return tuple(map(_without_places, node))
    if is_dataclass(node) and not isinstance(node, type):
        return (type(node), *(_without_places(getattr(node, field.name)) for field in fields(node)))
    return node
