"""A fuse against the current that flows through it for long, and against inrush."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from logiccheck.copper.sizing.ampacity import protects
from logiccheck.copper.sizing.sized import Continuous, Fit, Inrush, Kind, Lack, Sized, lacking
from logiccheck.copper.tables.table import Table, between, table
from logiccheck.lang.program import Electrical, Electrics

SECOND = 1_000_000  # microseconds
BLADE_MOST, LARGE_LEAST, LARGE_MOST = 40, 20, 80  # A: blade fuses reach up to the first, large ones are in between


def continuous(what: Electrical, electrics: Electrics, current: Fraction | None) -> Sized:
    """Whether the fuse carries the current (A) for long: a share of its rating, less where it is hot."""
    lacks = [(Lack.CURRENT, current is None), (Lack.FUSE, what.fuse is None)]
    if current is None or what.fuse is None:
        return lacking(Kind.CONTINUOUS, *(lack for lack, missing in lacks if missing))
    warm = Fraction(100) if electrics.ambient is None else warm_share(electrics.ambient)
    if warm is None:
        return lacking(Kind.CONTINUOUS, Lack.HEAT)
    usual = table("continuous")
    share = min(usual.at("share", "value"), warm)
    limit = what.fuse * share / 100
    ratings = [table("blade_sizes"), table("large_sizes")]
    made = sorted(rating for each in ratings for _, rating in each.column("rating"))
    fitting = next((rating for rating in made if current <= rating * share / 100), None)
    fit = Fit.FITS if current <= limit else Fit.NOT
    basis: list[Table] = [usual if share < warm else table("warm_fuse"), *(ratings if fit is Fit.NOT else ())]
    hot = electrics.ambient if share < usual.at("share", "value") else None
    suits = None
    if fitting is not None and what.wire_size is not None:
        suits = protects(replace(what, fuse=fitting), electrics).fit
    return Sized(
        Kind.CONTINUOUS, fit, Continuous(current, what.fuse, share, limit, fitting, hot, suits), (), tuple(basis)
    )


def warm_share(temperature: Fraction) -> Fraction | None:
    """Percent of its rating that a fuse element carries in air of this temperature; None outside of the table."""
    points = table("warm_fuse").column("carries")
    carries = between(points, temperature)
    return None if carries is None else carries / points[0][1] * 100


def inrush(what: Electrical, of: str = "") -> Sized:
    """Whether the inrush, `of` something behind the fuse where it is not its own, opens it by itself: never
    inside the shortest time for which such a fuse carries it."""
    if what.fuse is None or what.inrush is None or what.inrush_time is None:
        return lacking(Kind.INRUSH, *([Lack.FUSE] if what.fuse is None else []))
    gates = _gates(what.fuse)
    percent = what.inrush / what.fuse * 100
    holds = min(_all_known([held(gate, percent) for gate in gates]), default=None)
    opens = max(_all_known([opened(gate, percent) for gate in gates]), default=None)
    fit = Fit.OPEN
    if holds is not None and what.inrush_time < holds * SECOND:
        fit = Fit.FITS
    elif opens is not None and what.inrush_time > opens * SECOND:
        fit = Fit.NOT
    numbers = Inrush(what.inrush, what.inrush_time, what.fuse, percent, _micros(holds), _micros(opens), of)
    return Sized(Kind.INRUSH, fit, numbers, (Lack.GATE,) if fit is Fit.OPEN else (), gates)


def _gates(fuse: Fraction) -> tuple[Table, ...]:
    """The tables for every kind of fuse that is made with this rating."""
    small = (table("blade_gates"),) if fuse <= BLADE_MOST else ()
    return small + ((table("large_gates"),) if LARGE_LEAST <= fuse <= LARGE_MOST else ())


def held(gates: Table, percent: Fraction) -> Fraction | None:
    """Seconds for less than which a fuse carries this percent of its rating: as long as the next higher gate says."""
    return next((least for gate, least in gates.column("least") if percent <= gate), None)


def opened(gates: Table, percent: Fraction) -> Fraction | None:
    """Seconds within which a fuse opens at this percent of its rating: as the next lower gate says."""
    return next((most for gate, most in reversed(gates.column("most")) if percent >= gate), None)


def _all_known(seconds: list[Fraction | None]) -> list[Fraction]:
    """Nothing, where any of them is not known."""
    known = [each for each in seconds if each is not None]
    return known if len(known) == len(seconds) else []


def _micros(seconds: Fraction | None) -> Fraction | None:
    return None if seconds is None else seconds * SECOND
