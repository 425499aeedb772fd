"""What a wire of copper has in ohm per kilometre, by its size, at a temperature."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.copper.sizing.sized import Range
from logiccheck.copper.tables.size import Size, System, area_tables, circular_mils
from logiccheck.copper.tables.table import Table, table

FEET_PER_KM = Fraction(1000) / Fraction("0.3048")


def warmed(resistance: Fraction, at: Fraction, to: Fraction) -> Fraction:
    """A resistance that was measured at a temperature, at another (degC)."""
    return resistance * _share(to) / _share(at)


def _share(temperature: Fraction) -> Fraction:
    return 1 + table("copper").at("per_kelvin", "value") * (temperature - 20)


def ohm_per_km(size: Size, temperature: Fraction) -> Range:
    """By the table; of a size that it does not have, what its neighbours say. Stranded AWG and SAE wires have up to
    some percent more than solid ones, by how much longer strands lie."""
    cold = _mm2(size.number) if size.system is System.MM2 else _gauge(size)
    low, high = (None if x is None else warmed(x, Fraction(20), temperature) for x in (cold.low, cold.high))
    return Range(low, high)


def resistance_tables(size: Size) -> tuple[Table, ...]:
    """What the resistance of a wire of this size rests on."""
    rows = (table("iec60228"),) if size.system is System.MM2 else area_tables(size)
    return *rows, table("copper")


def solid(size: Size) -> Fraction | None:
    """Of a solid AWG or SAE wire at 20 degC in ohm/km; None for a size that has no row."""
    mils = circular_mils(size)
    return None if mils is None else table("copper").at("resistivity", "value") / mils * FEET_PER_KM


def _gauge(size: Size) -> Range:
    found = solid(size)
    return Range(None, None) if found is None else Range(found, found * table("copper").at("strands", "value"))


def _mm2(section: Fraction) -> Range:
    """The next thinner wire of the table has more, the next thicker one less."""
    rows = table("iec60228").column("class5")
    high = [ohms for row, ohms in rows if row <= section]
    low = [ohms for row, ohms in rows if row >= section]
    return Range(low[0] if low else None, high[-1] if high else None)
