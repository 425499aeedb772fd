"""Reads the lines of a text: indentation, comments, quotes and brackets; blank lines are left out."""

from __future__ import annotations

import re

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.mistakes.layout import LongLine, StrangeCharacter, TabIndent, UnclosedQuote

_FIRST_WORD = re.compile(r"[^\W\d]\w*(?:-\w+)*")  # kinds of findings are words with hyphens
_PARTS = re.compile(r'"[^"]*"|"|#|[()\[\]{}]')
_INVISIBLE = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\xa0\xad\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff\ufff9-\ufffb]"
)


@frozen
class Line:
    """A line that says something: `code` begins at offset `begin`, without indentation, comment and end blanks."""

    begin: int
    indent: int
    code: str
    word: str  # the first word, "" if it begins with none
    opened: int  # brackets opened less brackets closed
    broken: bool  # a mistake in it was already reported

    def span(self, file: str) -> Span:
        return Span(file, self.begin, self.begin + len(self.code))

    def word_span(self, file: str) -> Span:
        return Span(file, self.begin, self.begin + (len(self.word) or len(self.code)))


def read_lines(text: str, file: str) -> tuple[list[Line], list[Diagnostic]]:
    """All lines that are not blank, and what is wrong with single lines."""
    lines: list[Line] = []
    found: list[Diagnostic] = []
    at = 0
    for raw in text.split("\n"):
        line = _line(raw, at, file, found)
        if line is not None:
            lines.append(line)
        at += len(raw) + 1
    return lines, found


def _line(raw: str, at: int, file: str, found: list[Diagnostic]) -> Line | None:
    """The line `raw` that begins at offset `at`; None if it is blank."""
    bare = raw.lstrip(" \t")
    lead = raw[: len(raw) - len(bare)]
    begin = at + len(lead)
    code, opened, quote = _scan(bare)
    if not code:
        return None
    told = len(found)
    if len(raw) > limits.LINE_CHARACTERS:
        found.append(Diagnostic(LongLine(len(raw), limits.LINE_CHARACTERS), Span(file, begin, begin + 1)))
    elif (hidden := _INVISIBLE.search(code)) is not None:
        spot = Span(file, begin + hidden.start(), begin + hidden.end())
        found.append(Diagnostic(StrangeCharacter(ord(hidden[0])), spot))
    elif quote is not None:
        found.append(Diagnostic(UnclosedQuote(), Span(file, begin + quote, begin + len(code))))
    broken = len(found) > told
    if "\t" in lead:
        found.append(Diagnostic(TabIndent(), Span(file, at, begin)))
    word = _FIRST_WORD.match(code)
    return Line(begin, len(lead.expandtabs(4)), code, word[0] if word else "", opened, broken)


def _scan(bare: str) -> tuple[str, int, int | None]:
    """The line without its comment, its bracket balance, and where a quote stands that is not closed."""
    opened = 0
    quote: int | None = None
    end = len(bare)
    for part in _PARTS.finditer(bare):
        if part[0] == "#":
            end = part.start()
            break
        if part[0] == '"':
            quote = part.start()
            break
        opened += (part[0] in "([{") - (part[0] in ")]}")
    return bare[:end].rstrip(), opened, quote
