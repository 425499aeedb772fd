"""An edit of the user's files: which characters give way to which, and of what kind it is."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import field
from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.program import Program


class EditKind(Enum):
    """What an edit does."""

    DURATION = "another duration"
    THRESHOLD = "another threshold"
    MEMORY = "the other side wins, or a state is kept"
    BRACKETS = "brackets elsewhere"
    DIODE = "a diode instead of a plain connection, or turned round"
    INVERT = "a term, a contact or a sense inverted"
    EDGE = "an edge instead of a state, or a state instead of an edge"
    DROP = "one part less"
    FEED = "fed or supplied from elsewhere"
    GUARD = "one more condition"
    READ = "a sense that reads another wire"


@frozen
class Change:
    """The characters of `span` are replaced by `text`; an empty span inserts."""

    span: Span
    text: str


@frozen
class Edit:
    """`changes` do not overlap. `swapped`, where given, is the program as the edit makes it, to be looked at before the
    edited files are read."""

    kind: EditKind
    changes: tuple[Change, ...]
    swapped: Callable[[], Program] | None = field(default=None, compare=False)


_ALONE = {
    EditKind.DURATION: 1,
    EditKind.THRESHOLD: 1,
    EditKind.MEMORY: 1,
    EditKind.BRACKETS: 1,
    EditKind.DIODE: 1,
    EditKind.INVERT: 2,
    EditKind.EDGE: 2,
}
_WITH_WORDS = {EditKind.DROP: 2, EditKind.FEED: 3, EditKind.GUARD: 4, EditKind.READ: 6}


def size(edit: Edit, files: Mapping[str, str]) -> int:
    """How much it changes of what the line means. What only turns something that is there is small; what takes out,
    or puts in, grows with each word."""
    if edit.kind is EditKind.DURATION:
        return _ALONE[edit.kind] * len(edit.changes)
    if edit.kind in _ALONE:
        return _ALONE[edit.kind]
    return _WITH_WORDS[edit.kind] + sum(_words(change, files[change.span.file]) for change in edit.changes)


def _words(change: Change, text: str) -> int:
    """The words that go and the words that come; brackets are none."""
    parts = (text[change.span.begin : change.span.end], change.text)
    old, new = (Counter(re.findall(r"[\w.]+", part)) for part in parts)
    return (old - new).total() + (new - old).total()


@frozen
class Edited:
    """The files as an edit makes them, and where in them what it put in stands (or, empty, what it took out stood)."""

    files: Mapping[str, str]
    spans: tuple[Span, ...]


def edited(edit: Edit, files: Mapping[str, str]) -> Edited:
    """The edit, applied to the texts of all files."""
    texts = dict(files)
    spans: list[Span] = []
    moved: dict[str, int] = {}
    for change in sorted(edit.changes, key=lambda c: (c.span.file, c.span.begin, c.span.end)):
        file, by = change.span.file, moved.get(change.span.file, 0)
        begin, end = change.span.begin + by, change.span.end + by
        texts[file] = texts[file][:begin] + change.text + texts[file][end:]
        spans.append(Span(file, begin, begin + len(change.text)))
        moved[file] = by + len(change.text) - (end - begin)
    return Edited(texts, tuple(spans))
