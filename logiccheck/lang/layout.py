"""Cuts a text into blocks (a header in column 0) and items (indented lines), before anything in them is read."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import Span
from logiccheck.lang.lines import Line, read_lines
from logiccheck.lang.mistakes import syntax
from logiccheck.lang.words import HEADERS, ITEM_WORDS, SINGLE_LINES


@dataclass(frozen=True, slots=True)
class Piece:
    """A header or an item: characters `begin` up to `begin + len(text)`; comments in `text` are blanked out.

    `broken`: a mistake in it was already reported, it is not to be read any further.
    """

    text: str
    begin: int
    word: str  # the first word, "" if it begins with none
    broken: bool

    @property
    def end(self) -> int:
        return self.begin + len(self.text)


@dataclass(frozen=True, slots=True)
class RawBlock:
    header: Piece
    items: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    blocks: tuple[RawBlock, ...]
    diagnostics: tuple[Diagnostic, ...]


def lay_out(text: str, file: str) -> Layout:
    """The blocks of a text whose line ends are all "\\n"."""
    lines, found = read_lines(text, file)
    blocks: list[RawBlock] = []
    at = 0
    while at < len(lines) and lines[at].indent > 0:
        at += 1
    if at:
        found.append(Diagnostic(syntax.OutsideBlock(), lines[0].span(file)))
    while at < len(lines):
        stop = at + 1
        while stop < len(lines) and lines[stop].indent > 0:
            stop += 1
        blocks.append(_block(lines[at:stop], file, found))
        at = stop
    return Layout(tuple(blocks), tuple(found))


def _block(lines: list[Line], file: str, found: list[Diagnostic]) -> RawBlock:
    """The block of a header line and the indented lines under it."""
    head = lines[0]
    if head.word in SINGLE_LINES or head.word not in HEADERS:
        return RawBlock(_piece(lines if head.word in SINGLE_LINES else lines[:1]), ())
    words = ITEM_WORDS[head.word]
    items: list[Piece] = []
    at = 1
    while at < len(lines):
        stop = _item_end(lines, at, words)
        line = lines[at]
        if line.indent < lines[1].indent:
            found.append(Diagnostic(syntax.BadIndent(lines[1].indent), line.span(file), lines[1].span(file)))
        items.append(_piece(lines[at:stop]))
        at = stop
    return RawBlock(_piece(lines[:1]), tuple(items))


def _item_end(lines: list[Line], at: int, words: frozenset[str]) -> int:
    """The index after the last line of the item that begins at line `at`.

    Deeper lines continue it, and so do lines under an open bracket; but a bracket that is never closed joins nothing:
    otherwise it would swallow the rest of the block.
    """
    level = lines[1].indent
    stop = at + 1
    open_brackets = lines[at].opened
    end_by_indent = 0
    while stop < len(lines):
        line = lines[stop]
        deeper = line.indent > level
        if not deeper:
            end_by_indent = end_by_indent or stop
            if open_brackets <= 0:
                return stop
            if line.word in words or stop - end_by_indent >= limits.BRACKET_LINES:
                return end_by_indent
        open_brackets += line.opened
        stop += 1
    return end_by_indent if open_brackets > 0 and end_by_indent else stop


def _piece(lines: list[Line]) -> Piece:
    """The lines as one piece; every line stands at its own offset, so what lies between them is blank."""
    first = lines[0]
    parts: list[str] = []
    at = first.begin
    for line in lines:
        parts.append(" " * (line.begin - at))
        parts.append(line.code)
        at = line.begin + len(line.code)
    return Piece("".join(parts), first.begin, first.word, any(line.broken for line in lines))
