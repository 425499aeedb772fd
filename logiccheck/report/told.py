"""Stories, edits and lines of files told line by line, for formats that have no tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logiccheck.report.report import EditsPart, Excerpt, Table
from logiccheck.report.table import TIMERS


def told(table: Table) -> tuple[tuple[str, str], ...]:
    """Each moment, and what is so or changes at it: ("1 s", "key run, key_wire live, timer hold runs 4 min")."""
    moments = []
    for at, title in enumerate(table.columns):
        facts = [
            f"{'timer ' if group.title == TIMERS else ''}{row.name} {row.cells[at]}"
            for group in table.groups
            for row in group.rows
            if row.cells[at]
        ]
        moments.append((title, ", ".join(facts)))
    return tuple(moments)


def excerpts_told(excerpts: Iterable[Excerpt]) -> Iterator[str]:
    """Each place, and each of its lines with its number."""
    for excerpt in excerpts:
        yield excerpt.place
        yield from (f"{line.number} | {line.text}" for line in excerpt.lines)


def edits_told(edits: EditsPart | None) -> Iterator[str]:
    """What is suggested, if anything is."""
    if edits is not None:
        yield edits.sentence
        for edit in edits.edits:
            yield from excerpts_told(edit)
