"""The voltage that is lost on a wire, there and back."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.copper.sizing.resistance import ohm_per_km, resistance_tables
from logiccheck.copper.sizing.sized import Drop, Fit, Kind, Lack, Range, Sized, judged, lacking
from logiccheck.copper.sizing.surroundings import around
from logiccheck.copper.tables.size import size_of
from logiccheck.copper.tables.table import table
from logiccheck.lang.program import Electrical, Electrics


def lost(ohms_per_km: Fraction, length: Fraction, current: Fraction) -> Fraction:
    """Volts: the resistance of twice the length (m), times the current (A)."""
    return ohms_per_km * 2 * length / 1000 * current


def drop(what: Electrical, electrics: Electrics, current: Fraction | None) -> Sized:
    """The voltage lost there and back, held against `drop` of the wire, or the usual share, of the nominal voltage."""
    size = None if what.wire_size is None else size_of(what.wire_size)
    lacks = [
        lack
        for lack, there in (
            (Lack.CURRENT, current is not None),
            (Lack.WIRE, what.wire_size is not None and what.wire_length is not None),
            (Lack.SIZE, what.wire_size is None or size is not None),
            (Lack.NOMINAL, electrics.nominal is not None),
        )
        if not there
    ]
    if current is None or size is None or what.wire_length is None or electrics.nominal is None:
        return lacking(Kind.DROP, *lacks)
    temperature = around(what, electrics)
    each = ohm_per_km(size, temperature)
    volts = Range(*(None if x is None else lost(x, what.wire_length, current) for x in (each.low, each.high)))
    percent = what.drop if what.drop is not None else table("allowed_drop").at("other", "drop")
    limit = percent / 100 * electrics.nominal
    fit = _within(volts, limit)
    lack = () if fit is not Fit.OPEN else (Lack.SIZE if None in (each.low, each.high) else Lack.BETWEEN,)
    numbers = Drop(current, size, what.wire_length, temperature, each, volts, limit, percent, electrics.nominal)
    basis = resistance_tables(size) + (() if what.drop is not None else (table("allowed_drop"),))
    return Sized(Kind.DROP, fit, numbers, lack, basis)


def _within(volts: Range, limit: Fraction) -> Fit:
    least = None if volts.high is None else -volts.high
    most = None if volts.low is None else -volts.low
    return judged(-limit, least, most)
