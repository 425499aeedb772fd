"""Brackets of one item: each is closed by its own kind, and none stands too deep."""

from __future__ import annotations

import re

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.layout import Piece
from logiccheck.lang.mistakes.layout import StrayBracket, TooDeep, UnclosedBracket

_CLOSING = {"(": ")", "[": "]", "{": "}"}
_PARTS = re.compile(r'"[^"]*"|[()\[\]{}]')


@frozen
class Bracket:
    at: int  # offset in the text of the item
    sign: str
    before: str  # the word right before it, "" if there is none


def brackets_open_at(text: str, end: int) -> list[Bracket]:
    """The brackets that are open at offset `end` of an item, the innermost last."""
    stack: list[Bracket] = []
    for part in _PARTS.finditer(text, 0, end):
        if part[0] in _CLOSING:
            word = re.search(r"(\w+)\s*\Z", text[max(0, part.start() - 40) : part.start()])
            stack.append(Bracket(part.start(), part[0], word[1] if word else ""))
        elif stack and part[0] == _CLOSING[stack[-1].sign]:
            stack.pop()
    return stack


def bracket_mistake(piece: Piece, file: str) -> Diagnostic | None:
    """The first mistake of an item's brackets."""

    def told(message: Message, at: int, other: Span | None = None) -> Diagnostic:
        return Diagnostic(message, Span(file, piece.begin + at, piece.begin + at + 1), other)

    stack: list[tuple[int, str]] = []
    for part in _PARTS.finditer(piece.text):
        sign, at = part[0], part.start()
        if sign in _CLOSING:
            stack.append((at, sign))
            if len(stack) > limits.NESTING:
                return told(TooDeep(limits.NESTING), at)
        elif sign[0] != '"':
            if not stack:
                return told(StrayBracket(sign), at)
            opened_at, opened = stack.pop()
            if sign != _CLOSING[opened]:
                closed = Span(file, piece.begin + at, piece.begin + at + 1)
                return told(UnclosedBracket(opened, _CLOSING[opened]), opened_at, closed)
    if stack:
        opened_at, opened = stack[-1]
        return told(UnclosedBracket(opened, _CLOSING[opened]), opened_at)
    return None
