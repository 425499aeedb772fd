"""Lines of text as a stream wants them, each in pieces that have a style: wrapped, the user's own, or a table."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.widths import columns_of, padded
from logiccheck.report.report import Excerpt, Row, Table

Piece: TypeAlias = tuple[str, str]  # a text and the style it is shown in, "" for plain
Printed: TypeAlias = tuple[Piece, ...]  # one line

BAD, GOOD, OPEN, STRONG, FAINT = "bold red", "bold blue", "bold", "bold", "dim"
GAP = "  "
BAR, RULE = "\u2502", "\u2500"


@dataclass(frozen=True, slots=True)
class Look:
    """How the stream wants it: `width` None never wraps or splits; `ascii` where it can take no other characters."""

    width: int | None
    colour: bool
    ascii: bool


def wrapped(text: str, look: Look, indent: str = "", style: str = "", first: str | None = None) -> Iterator[Printed]:
    """`text` after `indent`, its first line after `first`; broken only at blanks, and only where there is a width."""
    first = indent if first is None else first
    if look.width is None:
        yield ((first + text, style),)
        return
    room = max(look.width, len(indent) + 20)
    for line in textwrap.wrap(
        text, room, initial_indent=first, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    ):
        yield ((line, style),)


# ---------------------------------------------------------------------------------------------- the user's own lines


def draw_excerpt(excerpt: Excerpt, look: Look) -> Iterator[Printed]:
    """The lines as written, with a row of carets under what they point at; never wrapped."""
    bar = "|" if look.ascii else BAR
    digits = len(str(excerpt.lines[-1].number)) if excerpt.lines else 0
    yield ((f"{GAP * 2}{excerpt.place}", FAINT),)
    for line in excerpt.lines:
        text = line.text.expandtabs(1)
        yield ((f"{GAP * 2}{str(line.number).rjust(digits)} {bar} ", FAINT), (text, ""))
        if line.marks:
            yield ((f"{GAP * 2}{' ' * digits} {bar} ", FAINT), (_carets(text, line.marks), BAD))


def _carets(text: str, marks: tuple[tuple[int, int], ...]) -> str:
    """Carets under the marks, each as wide as what it stands under; a mark may lie behind the end of the text."""
    under = ""
    for at in range(max(end for _, end in marks)):
        marked = any(begin <= at < end for begin, end in marks)
        under += ("^" if marked else " ") * (columns_of(text[at]) if at < len(text) else 1)
    return under


# ---------------------------------------------------------------------------------------------------------- the table


def draw_table(table: Table, look: Look) -> Iterator[Printed]:
    """The table in as many pieces as the width asks for, one below the other; in one piece where there is no width."""
    rows = [row for group in table.groups for row in group.rows]
    titles = max((len(group.title) for group in table.groups), default=0)
    names = max((columns_of(row.name) for row in rows), default=0)
    below = [[title, *(row.cells[at] for row in rows)] for at, title in enumerate(table.columns)]
    widths = [max(map(columns_of, texts)) for texts in below]
    lead = len(GAP) + titles + len(GAP) + names
    for number, columns in enumerate(_pieces(widths, lead, look)):
        if number:
            yield ()
        cells = [padded(table.columns[at], widths[at]) for at in columns]
        yield ((" " * lead + "".join(GAP + cell for cell in cells), STRONG),)
        rule = "-" if look.ascii else RULE
        yield ((GAP + rule * (lead - len(GAP) + sum(len(GAP) + widths[at] for at in columns)), FAINT),)
        for group in table.groups:
            shown = [row for row in group.rows if any(row.cells[at] for at in columns)]
            for at, row in enumerate(shown):
                title = (group.title if at == 0 else "").ljust(titles)
                yield ((f"{GAP}{title}{GAP}", FAINT), (padded(row.name, names) + _cells(row, columns, widths), ""))


def _cells(row: Row, columns: list[int], widths: list[int]) -> str:
    return "".join(GAP + padded(row.cells[at], widths[at]) for at in columns)


def _pieces(widths: list[int], lead: int, look: Look) -> Iterator[list[int]]:
    """Which columns stand side by side: as many as fit, at least one."""
    piece: list[int] = []
    used = lead
    for at, width in enumerate(widths):
        if piece and look.width is not None and used + len(GAP) + width > look.width:
            yield piece
            piece, used = [], lead
        piece.append(at)
        used += len(GAP) + width
    yield piece
