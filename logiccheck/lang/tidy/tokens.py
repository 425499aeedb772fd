"""The words and signs of a line, and how many blanks stand between them."""

from __future__ import annotations

import re

from logiccheck.base.frozen import frozen
from logiccheck.base.widths import columns_of

TAB = 4

_OF_ACCEPTED = r"[^\W_]\w*(?:-\w+)+|\d+\.\d+\.\d+|\d+/\d+/\d+"  # kinds of findings, dates, marks
_TOKEN = re.compile(rf'"[^"]*"|{_OF_ACCEPTED}|-?\d+(?:\.\d+)?|°?[^\W\d]\w*|->|\.\.|\+-|\S')
_DATE, _MARK = re.compile(r"\s+[^\W_][\w./-]*"), re.compile(r"\s+[^\W_][\w-]*")
_FUNCTIONS = frozenset(
    ("on_delay", "off_delay", "one_shot", "blink", "bistable", "impulse_relay", "rises", "falls", "previous")
)


@frozen
class Token:
    """`gap` are the columns of blanks before it as it was written, 0 for the first of a line."""

    text: str
    gap: int

    @property
    def columns(self) -> int:
        return columns_of(self.text)


def tokens_of(code: str) -> tuple[Token, ...]:
    """The tokens of a line without its comment."""
    found: list[Token] = []
    end = 0
    while (match := _next(code, end, [token.text for token in found[-3:]])) is not None:
        text = match[0].lstrip()
        start = match.end() - len(text)
        found.append(Token(text, len(code[end:start].replace("\t", " " * TAB))))
        end = match.end()
    return tuple(found)


def _next(code: str, begin: int, before: list[str]) -> re.Match[str] | None:
    """A date behind `by "NAME" on`, and a mark behind `logic`, are one word each even where they are wrong ones."""
    word = None
    if before[-1:] == ["logic"]:
        word = _MARK.match(code, begin)
    elif before[:1] == ["by"] and before[-1] == "on":
        word = _DATE.match(code, begin)
    return word or _TOKEN.search(code, begin)


def blanks(before: Token, after: Token) -> int:
    """The blanks between two tokens of a line that no column parts."""
    if before.text in ("(", "{", "/") or after.text in (")", "}", ",", "/"):
        return 0
    return 0 if after.text == "(" and before.text in _FUNCTIONS else 1
