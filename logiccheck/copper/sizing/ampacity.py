"""What a wire may carry for long, as it lies, and whether its fuse protects it."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.copper.sizing.sized import Carries, Fit, Kind, Lack, Protects, Range, Sized, judged, lacking
from logiccheck.copper.sizing.surroundings import around
from logiccheck.copper.tables.roots import root
from logiccheck.copper.tables.size import Size, System, area, area_tables, awg_area, size_of
from logiccheck.copper.tables.table import Table, table
from logiccheck.lang.program import Electrical, Electrics

PLACES = 6  # a wire that may carry 24.49489742... A counts as one of 24.494897 A


@frozen
class Bound:
    """A wire carries at least, or at most, this many amperes, because one of this size does; and what says so."""

    amperes: Fraction
    size: Size
    tables: tuple[Table, ...]


def protects(what: Electrical, electrics: Electrics, of: str = "") -> Sized:
    """Whether the fuse is not above what its wire may carry for long; `of`: whose fuse it is, where not its own."""
    if what.fuse is None or what.wire_size is None:
        return lacking(Kind.PROTECTS, Lack.FUSE if what.fuse is None else Lack.WIRE)
    held = _against(what.fuse, what.wire_size, what, electrics)
    if isinstance(held, Lack):
        return lacking(Kind.PROTECTS, held)
    numbers = Protects(what.fuse, held.size, held.carries, held.temperature, held.bundle, held.instead, of)
    return Sized(Kind.PROTECTS, held.fit, numbers, held.lacks, held.basis)


def carries(what: Electrical, electrics: Electrics, current: Fraction | None) -> Sized:
    """Whether the current (A) is not above what the wire may carry for long."""
    if current is None or what.wire_size is None:
        return lacking(Kind.CARRIES, Lack.CURRENT if current is None else Lack.WIRE)
    held = _against(current, what.wire_size, what, electrics)
    if isinstance(held, Lack):
        return lacking(Kind.CARRIES, held)
    numbers = Carries(current, held.size, held.carries, held.temperature, held.bundle, held.instead)
    return Sized(Kind.CARRIES, held.fit, numbers, held.lacks, held.basis)


@frozen
class _Held:
    fit: Fit
    size: Size
    carries: Range
    temperature: Fraction
    bundle: int
    instead: Size | None
    lacks: tuple[Lack, ...]
    basis: tuple[Table, ...]


def _against(amperes: Fraction, written: str, what: Electrical, electrics: Electrics) -> _Held | Lack:
    """Amperes held against what the wire may carry for long.

    The table is by AWG. A wire counted in anything else carries at least what the next thinner gauge does. That they
    are too many for it the next thicker gauge says, or a table by cross-section.
    """
    size = size_of(written)
    if size is None:
        return Lack.SIZE
    temperature, bundle = around(what, electrics), what.bundle or 1
    share = bundle_share(bundle)
    if share is None:
        return Lack.BUNDLE
    low, high = bounds(size, what.engine_space, temperature)
    may = Range(*(None if bound is None else bound.amperes * share for bound in (low, high)))
    fit = judged(amperes, may.low, may.high)
    lack = () if fit is not Fit.OPEN else (Lack.SIZE if None in (low, high) else Lack.BETWEEN,)
    deciding = high if fit is Fit.NOT else low
    instead = deciding.size if deciding is not None and deciding.size != size else None
    basis = tuple(
        each
        for bound, used in ((low, fit is not Fit.NOT), (high, fit is not Fit.FITS))
        if bound and used
        for each in bound.tables
    )
    together = (table("bundle"),) if bundle > 1 else ()
    return _Held(fit, size, may, temperature, bundle, instead, lack, tuple(dict.fromkeys((*basis, *together))))


def bundle_share(conductors: int) -> Fraction | None:
    """What is left of the current of each wire where so many lie together; None where the table ends before."""
    return next((share for most, share in table("bundle").column("share") if conductors <= most), None)


def bounds(size: Size, inside: bool, temperature: Fraction) -> tuple[Bound | None, Bound | None]:
    """What a wire that lies alone carries at least and at most, in an engine space or not; None where no table says.
    Where two tables differ so that the one would be above the other, the first counts."""
    low, high = at_least(size, inside, temperature), at_most(size, inside, temperature)
    return (low, low) if low is not None and high is not None and high.amperes < low.amperes else (low, high)


def at_least(size: Size, inside: bool, temperature: Fraction) -> Bound | None:
    """What a wire that lies alone carries for sure, in an engine space or not: that of the thickest gauge with no more
    copper, or else that of its cross-section; None where no table says."""
    copper = area(size)
    gauges = [] if copper is None else [each for each in _gauges() if each == size or awg_area(each.number) <= copper]
    if gauges:
        return _by_gauge(size, gauges[-1], inside, temperature, up=False)
    if size.system is System.MM2 and size.number in dict(table("ampacity_mm2").column("carries")):
        return _by_section(size.number, temperature, up=False)
    return None


def at_most(size: Size, inside: bool, temperature: Fraction) -> Bound | None:
    """What a wire that lies alone may not carry more than: that of the thinnest gauge with no less copper, or, where it
    is less, that of the cross-section; None where no table says."""
    copper = area(size)
    gauges = [] if copper is None else [each for each in _gauges() if each == size or awg_area(each.number) >= copper]
    bounds = [_by_gauge(size, each, inside, temperature, up=True) for each in gauges[:1]]
    if size.system is System.MM2:
        thicker = [section for section, _ in table("ampacity_mm2").column("carries") if section >= size.number]
        bounds += [_by_section(section, temperature, up=True) for section in thicker[:1]]
    return min(bounds, key=lambda bound: bound.amperes, default=None)


def _gauges() -> list[Size]:
    """Those of the table, the thinnest first."""
    return [Size(System.AWG, gauge) for gauge, _ in reversed(table("ampacity").column("outside"))]


def _by_gauge(size: Size, gauge: Size, inside: bool, temperature: Fraction, up: bool) -> Bound:
    column = "inside" if inside else "outside"
    carries = table("ampacity").at(str(gauge.number), column)
    areas = () if gauge == size else tuple(dict.fromkeys((*area_tables(size), *area_tables(gauge))))
    return Bound(
        _warm(carries, column, temperature, up), gauge, (table("ampacity"), *_heat(column, temperature), *areas)
    )


def _by_section(section: Fraction, temperature: Fraction, up: bool) -> Bound:
    carries = dict(table("ampacity_mm2").column("carries"))[section]
    amperes = _warm(carries, "outside", temperature, up)
    return Bound(amperes, Size(System.MM2, section), (table("ampacity_mm2"), *_heat("outside", temperature)))


def _warm(carries: Fraction, column: str, temperature: Fraction, up: bool) -> Fraction:
    """What is left of a current of the table where it is warmer than there; colder air adds nothing."""
    warm = table("warm_wire")
    most, usual = warm.at("insulation", "temperature"), warm.at(column, "temperature")
    if temperature <= usual:
        return carries
    left = max(Fraction(0), (most - temperature) / (most - usual))
    return root(carries**2 * left, 2, PLACES, up)


def _heat(column: str, temperature: Fraction) -> tuple[Table, ...]:
    warm = table("warm_wire")
    return (warm,) if temperature > warm.at(column, "temperature") else ()
