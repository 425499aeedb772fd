"""A published table as data: its numbers, exact, and where they are from."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from itertools import pairwise

from logiccheck.base.assets import copper_table


class Standing(Enum):
    """How far the numbers of a table can be trusted to be those of its standard."""

    CONFIRMED = "confirmed"  # they were read where the table says
    MEMORY = "from memory"  # nobody has looked them up


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """Rows of named numbers in `unit`; `read` says where they were read, `note` what else there is to know. There is
    one value for each table, equal to itself alone."""

    name: str
    title: str
    standard: str
    edition: str
    standing: Standing
    read: str
    unit: str
    note: str
    rows: Mapping[str, Mapping[str, Fraction]]

    def at(self, row: str, column: str) -> Fraction:
        """The number that stands there; KeyError if there is none."""
        return self.rows[row][column]

    def column(self, column: str) -> list[tuple[Fraction, Fraction]]:
        """The rows, as numbers, that have something in this column, with what they have there, rising by row."""
        return sorted((Fraction(row), values[column]) for row, values in self.rows.items() if column in values)


@cache
def table(name: str) -> Table:
    """The table of this name; its file lies beside this one."""
    read = tomllib.loads(copper_table(name), parse_float=Fraction)
    rows = {row: {column: Fraction(x) for column, x in values.items()} for row, values in read["rows"].items()}
    said = {key: str(read[key]) for key in ("title", "standard", "edition", "read", "unit", "note")}
    return Table(name=name, standing=Standing(read["standing"]), rows=rows, **said)


def between(points: list[tuple[Fraction, Fraction]], x: Fraction) -> Fraction | None:
    """The value at x on the straight lines between points that rise in x; None outside of them."""
    for (left, low), (right, high) in pairwise(points):
        if left <= x <= right:
            return low + (high - low) * (x - left) / (right - left)
    return None
