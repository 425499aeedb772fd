"""Cuts a text into blocks (a header in column 0) and items (indented lines), before anything in them is read."""

from __future__ import annotations

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.suggest import near
from logiccheck.lang.lines import Line, read_lines
from logiccheck.lang.mistakes.layout import BadIndent, IndentedHeader, OutsideBlock, UnknownBlock
from logiccheck.lang.words import HEADERS, ITEM_WORDS, SINGLE_LINES


@frozen
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


@frozen
class RawBlock:
    """Under a header that is no header, every item is broken."""

    header: Piece
    items: tuple[Piece, ...]


@frozen
class Layout:
    blocks: tuple[RawBlock, ...]
    diagnostics: tuple[Diagnostic, ...]


def lay_out(text: str, file: str) -> Layout:
    """The blocks of a text whose line ends are all "\\n"."""
    lines, found = read_lines(text, file)
    blocks: list[RawBlock] = []
    at = 0
    while at < len(lines) and not _is_header(lines[at]):
        at += 1
    if at:
        found.append(Diagnostic(OutsideBlock(), lines[0].span(file)))
        blocks.append(RawBlock(Piece("", lines[0].begin, "", True), tuple(_broken(line) for line in lines[:at])))
    while at < len(lines):
        stop = at + 1
        while stop < len(lines) and not _is_header(lines[stop]):
            stop += 1
        blocks.append(_block(lines[at:stop], file, found))
        at = stop
    return Layout(tuple(blocks), tuple(found))


def _is_header(line: Line) -> bool:
    """Also a header word that is indented, which is told: no item begins with one."""
    return line.indent == 0 or line.word in HEADERS


def _broken(line: Line) -> Piece:
    return Piece(line.code, line.begin, line.word, True)


def _block(lines: list[Line], file: str, found: list[Diagnostic]) -> RawBlock:
    """The block of a header line and the indented lines under it."""
    head = lines[0]
    if head.indent:
        found.append(Diagnostic(IndentedHeader(head.word), head.word_span(file)))
    if head.word in SINGLE_LINES:
        return RawBlock(_piece(lines), ())
    if head.word not in HEADERS:
        return _unknown(lines, file, found)
    words = ITEM_WORDS[head.word]
    level = lines[1].indent if len(lines) > 1 else 0
    items: list[Piece] = []
    uneven = False
    at = 1
    while at < len(lines):
        stop = _item_end(lines, at, level, words)
        line = lines[at]
        if line.indent < level and not uneven:  # once a block: if its first line is the odd one, all others are
            uneven = True
            found.append(Diagnostic(BadIndent(level), line.span(file), lines[1].span(file)))
        items.append(_piece(lines[at:stop]))
        at = stop
    return RawBlock(_piece(lines[:1]), tuple(items))


def _unknown(lines: list[Line], file: str, found: list[Diagnostic]) -> RawBlock:
    """A line in column 0 that is no header, and what stands under it."""
    head = lines[0]
    if not head.broken:
        block = block_of(head.word)
        found.append(Diagnostic(UnknownBlock(head.word, near(head.word, HEADERS), block), head.word_span(file)))
    return RawBlock(_broken(head), tuple(_broken(line) for line in lines))


def block_of(word: str) -> str:
    """The block in which lines begin with this word; "" if there is none, or if `word` opens a block itself."""
    if word in HEADERS:
        return ""
    return next((block for block, words in ITEM_WORDS.items() if word in words), "")


def _item_end(lines: list[Line], at: int, level: int, words: frozenset[str]) -> int:
    """The index after the last line of the item that begins at line `at`.

    Deeper lines continue it, and so do lines under an open bracket; but a bracket that is never closed joins nothing:
    otherwise it would swallow the rest of the block.
    """
    stop = at + 1
    open_brackets = lines[at].opened
    end_by_indent = 0
    while stop < len(lines):
        line = lines[stop]
        if line.indent <= level:
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
