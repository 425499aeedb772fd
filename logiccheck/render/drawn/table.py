"""Draws the table of a story in lines of text: a column a moment, a row a signal, as many as fit side by side."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from logiccheck.base.widths import columns_of, padded
from logiccheck.report.report import Row, Table

Printed: TypeAlias = tuple[tuple[str, str], ...]  # one line: texts, each with its style

GAP, RULE = "  ", "\u2500"
STRONG, FAINT = "bold", "dim"


def draw(table: Table, width: int | None, ascii_only: bool) -> Iterator[Printed]:
    """The table in as many pieces as the width asks for, one below the other; in one piece where there is no width."""
    rows = [row for group in table.groups for row in group.rows]
    titles = max((len(group.title) for group in table.groups), default=0)
    names = max((columns_of(row.name) for row in rows), default=0)
    below = [[title, *(row.cells[at] for row in rows)] for at, title in enumerate(table.columns)]
    widths = [max(map(columns_of, texts)) for texts in below]
    lead = len(GAP) + titles + len(GAP) + names
    for number, columns in enumerate(_pieces(widths, lead, width)):
        if number:
            yield ()
        cells = [padded(table.columns[at], widths[at]) for at in columns]
        yield ((" " * lead + "".join(GAP + cell for cell in cells), STRONG),)
        rule = "-" if ascii_only else RULE
        yield ((GAP + rule * (lead - len(GAP) + sum(len(GAP) + widths[at] for at in columns)), FAINT),)
        for group in table.groups:
            shown = [row for row in group.rows if any(row.cells[at] for at in columns)]
            for at, row in enumerate(shown):
                title = (group.title if at == 0 else "").ljust(titles)
                yield ((f"{GAP}{title}{GAP}", FAINT), (padded(row.name, names) + _cells(row, columns, widths), ""))


def _cells(row: Row, columns: list[int], widths: list[int]) -> str:
    return "".join(GAP + padded(row.cells[at], widths[at]) for at in columns)


def _pieces(widths: list[int], lead: int, width: int | None) -> Iterator[list[int]]:
    """Which columns stand side by side: as many as fit, at least one."""
    piece: list[int] = []
    used = lead
    for at, own in enumerate(widths):
        if piece and width is not None and used + len(GAP) + own > width:
            yield piece
            piece, used = [], lead
        piece.append(at)
        used += len(GAP) + own
    yield piece
