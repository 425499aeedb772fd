"""A story told one line a moment, for formats that have no tables."""

from __future__ import annotations

from logiccheck.report.report import Table
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
