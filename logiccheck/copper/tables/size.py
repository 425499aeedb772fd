"""Sizes of wires: mm2, AWG and SAE, three things that are kept apart, and how much copper each has."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.copper.tables.roots import PI, power
from logiccheck.copper.tables.table import Table, table

MM_PER_INCH = Fraction("25.4")


class System(Enum):
    """What a size of wire is counted in; the value is how it is written."""

    MM2 = "mm2"
    AWG = "AWG"
    SAE = "SAE"


@frozen
class Size:
    """`number` is mm2, or the number of the gauge: of AWG 0, -1, -2, -3 for 1/0 to 4/0."""

    system: System
    number: Fraction


def size_of(text: str) -> Size | None:
    """The size that is written so: "1.5 mm2", "14 AWG", "14 SAE"; None for any other text."""
    number, _, unit = text.partition(" ")
    try:
        return Size(System(unit), Fraction(number))
    except (ValueError, ZeroDivisionError):
        return None


def awg_diameter(gauge: Fraction) -> Fraction:
    """In inches; cut after twelve decimal places."""
    rows = table("awg").rows
    smallest, ratio, steps = (rows[row]["diameter"] for row in ("36", "ratio", "steps"))
    return smallest * power(ratio, (36 - gauge) / steps)


def awg_area(gauge: Fraction) -> Fraction:
    """In mm2, of the round wire."""
    return PI * (awg_diameter(gauge) * MM_PER_INCH / 2) ** 2


def circular_mils(size: Size) -> Fraction | None:
    """The copper of an AWG or SAE size, in circular mils; None for mm2, and for a size that the table does not have."""
    match size.system:
        case System.AWG:
            return (awg_diameter(size.number) * 1000) ** 2
        case System.SAE:
            return dict(table("sae").column("area")).get(size.number)
        case System.MM2:
            return None


def area(size: Size) -> Fraction | None:
    """The copper in mm2; None for a size that the table does not have."""
    if size.system is System.MM2:
        return size.number
    mils = circular_mils(size)
    return None if mils is None else mils * PI / 4 * (MM_PER_INCH / 1000) ** 2


def area_tables(size: Size) -> tuple[Table, ...]:
    """The table that says how much copper a size has; none where the size itself says it."""
    match size.system:
        case System.AWG:
            return (table("awg"),)
        case System.SAE:
            return (table("sae"),)
        case System.MM2:
            return ()
