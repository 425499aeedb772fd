"""A text as rows: blank, a comment of its own, or code; each row of code knows its block, its item and its depth."""

from __future__ import annotations

from bisect import bisect_right
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.lang.layout import Layout, lay_out
from logiccheck.lang.lines import Line, read_lines
from logiccheck.lang.tidy.tokens import TAB, Token, tokens_of
from logiccheck.lang.words import SINGLE_LINES

STEP = 4  # columns that an item stands deeper than its block, and what goes on with it deeper than it


@frozen
class Blank:
    pass


@frozen
class Remark:
    """A comment on a line of its own, from its `#` on."""

    text: str
    indent: int


@frozen
class Code:
    """A line that says something. `block` counts the blocks, `word` opens it, `item` counts headers and items.

    `indent` is the column to stand in; `comment` stands behind the code, `comment_at` columns behind the place where
    the item begins, as written; "" if there is none.
    """

    tokens: tuple[Token, ...]
    block: int
    word: str
    item: int
    header: bool
    indent: int
    comment: str
    comment_at: int

    @property
    def item_indent(self) -> int:
        """The column in which its item begins."""
        return 0 if self.header else STEP


Row: TypeAlias = Blank | Remark | Code


@frozen
class _Raw:
    """A line as written: its offset, what it says, and the comment from its `#` on."""

    begin: int
    text: str
    line: Line | None
    comment: str

    @property
    def lead(self) -> int:
        """The columns of blanks it begins with."""
        bare = self.text.lstrip(" \t")
        return len(self.text[: len(self.text) - len(bare)].expandtabs(TAB))


def rows_of(text: str, path: str) -> list[Row]:
    """The rows of a text that can be read without a mistake."""
    owners = _owners(lay_out(text, path))
    begins = [begin for begin, _, _, _ in owners]
    rows: list[Row] = []
    at_item: dict[int, int] = {}
    for raw in _raw_lines(text, path):
        if raw.line is None:
            rows.append(Remark(raw.comment, raw.lead) if raw.comment else Blank())
            continue
        item = bisect_right(begins, raw.line.begin) - 1
        begin, block, word, header = owners[item]
        first = begin == raw.line.begin
        indent = (0 if header else STEP) + (0 if first else STEP)
        at_item.setdefault(item, raw.lead)
        at = _comment_at(raw, raw.line) - at_item[item]
        rows.append(Code(tokens_of(raw.line.code), block, word, item, header, indent, raw.comment, at))
    return _with_depths(rows)


def comments_of(text: str, path: str) -> list[str]:
    """All comments of a text, in order."""
    return [raw.comment for raw in _raw_lines(text, path) if raw.comment]


def _owners(layout: Layout) -> list[tuple[int, int, str, bool]]:
    """Where each header and item begins, its block, the word that opens that, and whether it is the header."""
    return [
        (piece.begin, number, block.header.word, at == 0)
        for number, block in enumerate(layout.blocks)
        for at, piece in enumerate((block.header, *block.items))
    ]


def _raw_lines(text: str, path: str) -> list[_Raw]:
    lines = {line.begin: line for line in read_lines(text, path)[0]}
    raws: list[_Raw] = []
    at = 0
    for raw in text.split("\n"):
        bare = raw.lstrip(" \t")
        line = lines.get(at + len(raw) - len(bare))
        rest = bare[len(line.code) :] if line is not None else bare
        hash_at = rest.find("#")
        raws.append(_Raw(at, raw, line, rest[hash_at:].rstrip(" \t") if hash_at >= 0 else ""))
        at += len(raw) + 1
    return raws


def _comment_at(raw: _Raw, line: Line) -> int:
    code = tokens_of(line.code)
    end = raw.lead + sum(token.gap + token.columns for token in code)
    after = raw.text[line.begin - raw.begin + len(line.code) :]
    return end + len(after[: len(after) - len(after.lstrip())].replace("\t", " " * TAB))


def _with_depths(rows: list[Row]) -> list[Row]:
    """The rows with each comment of its own at the depth of what it stands among.

    Before a line of the same block it is that line's; behind the last line of a block it tells by its own indentation
    whether it still belongs to the block.
    """
    done: list[Row] = []
    last: Code | None = None
    for at, row in enumerate(rows):
        if isinstance(row, Code):
            last = row
        elif isinstance(row, Remark):
            following = next((other for other in rows[at + 1 :] if isinstance(other, Code)), None)
            row = Remark(row.text, _depth(row, last, following))
        done.append(row)
    return done


def _depth(remark: Remark, last: Code | None, following: Code | None) -> int:
    if last is None:
        return 0
    if following is not None and following.block == last.block:
        return following.indent
    return STEP if remark.indent and last.word not in SINGLE_LINES else 0
