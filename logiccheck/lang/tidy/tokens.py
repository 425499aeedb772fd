"""The words and signs of a line, and how many blanks stand between them."""

from __future__ import annotations

import re

from logiccheck.base.frozen import frozen
from logiccheck.base.widths import columns_of

TAB = 4

_OF_ACCEPTED = r"[^\W_]\w*(?:-\w+)+|\d+\.\d+\.\d+|\d+/\d+/\d+"  # kinds of findings, dates, marks
_TOKEN = re.compile(rf'"[^"]*"|{_OF_ACCEPTED}|-?\d+(?:\.\d+)?|°?[^\W\d]\w*|->|\.\.|\+-|\S')
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
    for match in _TOKEN.finditer(code):
        found.append(Token(match[0], len(code[end : match.start()].replace("\t", " " * TAB))))
        end = match.end()
    return tuple(found)


def blanks(before: Token, after: Token) -> int:
    """The blanks between two tokens of a line that no column parts."""
    if before.text in ("(", "{", "/") or after.text in (")", "}", ",", "/"):
        return 0
    return 0 if after.text == "(" and before.text in _FUNCTIONS else 1
