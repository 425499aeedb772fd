"""Sentences about copper held against published tables: what is reckoned, with what, and where the table is from."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import assert_never

from logiccheck.base.units import show_number, show_time
from logiccheck.copper.sizing.sized import Carries, Continuous, Drop, Fit, Inrush, Lack, Protects, Range, Sized
from logiccheck.copper.tables.size import Size, System
from logiccheck.copper.tables.table import Standing, Table

PLACES, MOST_PLACES = 2, 6

FITS: Mapping[Fit, str] = {Fit.FITS: "fits", Fit.NOT: "does not fit", Fit.OPEN: "not decided"}

CAUTION = (
    "Each number is a check of arithmetic against a published table, not a design approval. Local codes and licensed "
    "practice decide. A fuse protects its wire, not the device behind it."
)

MISSING: Mapping[Lack, str] = {
    Lack.CURRENT: "what flows through it for long is not known; a load says it so: 8 A",
    Lack.FUSE: "no fuse is written; it is written so: fuse 15 A",
    Lack.PROTECTOR: "no fuse of its own protects it, and none through which all comes that flows there; write one",
    Lack.WIRE: "how the wire lies is not written; it is written so: wire 1.5 mm2 over 4.2 m",
    Lack.NOMINAL: "the voltage is not written; it is written so, under electrics: nominal 12 V",
    Lack.SIZE: "no table here has wires of this size",
    Lack.BUNDLE: "the table of wires that lie together ends at 24",
    Lack.HEAT: "the table of warm fuses is for -40 degC to 85 degC",
    Lack.GATE: "published times say neither that the fuse opens nor that it does not",
    Lack.BETWEEN: "the limit lies between what two tables say",
}


def amount(value: Fraction, unit: str, places: int = PLACES) -> str:
    """The number in this unit: exact if it is short, else rounded, which is said: "12.5 A", "about 0.33 V"."""
    shown = show_number(value)
    if "/" not in shown and len(shown.partition(".")[2]) <= places:
        return f"{shown} {unit}"
    return f"about {show_number(round(value, places))} {unit}"


def apart(value: Fraction, limit: Fraction, unit: str) -> str:
    """The value, with as many places as it takes to tell it from a limit that it is not."""
    places = PLACES
    while value != limit and round(value, places) == round(limit, places) and places < MOST_PLACES:
        places += 1
    return amount(value, unit, places)


def size(of: Size) -> str:
    """A size of wire as people write it: "1.5 mm2", "2/0 AWG"."""
    if of.system is System.AWG and of.number <= 0:
        return f"{1 - of.number}/0 AWG"
    return f"{show_number(of.number)} {of.system.value}"


def verdict(sized: Sized) -> str:
    """What was held against what, and what came of it, in one sentence."""
    parts = [sized.kind.value, *([_numbers(sized)] if sized.numbers is not None else []), FITS[sized.fit]]
    if sized.fit is Fit.OPEN:
        parts.append("; ".join(MISSING[lack] for lack in sized.lacks))
    more = _next(sized.numbers) if isinstance(sized.numbers, Continuous) and sized.fit is Fit.NOT else ""
    return f"{': '.join(parts)}{more}."


def _numbers(sized: Sized) -> str:
    match sized.numbers:
        case Continuous() as found:
            flows = apart(found.current, found.limit, "A")
            return f"{flows}; a fuse of {amount(found.fuse, 'A')} carries {amount(found.limit, 'A')} for long"
        case Protects() as found:
            carries = _range(found.carries, found.fuse, "A", sized.fit is Fit.NOT)
            whose = f" of {found.of}" if found.of else ""
            return f"fuse of {amount(found.fuse, 'A')}{whose}; wire of {size(found.size)} carries {carries}"
        case Carries() as found:
            carries = _range(found.carries, found.current, "A", sized.fit is Fit.NOT)
            return f"{amount(found.current, 'A')}; wire of {size(found.size)} carries {carries}"
        case Drop() as found:
            lost = _range(found.lost, found.limit, "V", sized.fit is not Fit.NOT)
            return f"{lost} there and back; {amount(found.limit, 'V')} allowed"
        case Inrush() as found:
            whose = f" of {found.of}" if found.of else ""
            return f"{amount(found.inrush, 'A')}{whose} for {show_time(found.lasts)}; fuse of {amount(found.fuse, 'A')}"
        case None:
            return ""
        case _:
            assert_never(sized.numbers)


def _next(found: Continuous) -> str:
    if found.next is None:
        return ""
    wire = {Fit.NOT: ", which is too large for its wire", Fit.OPEN: ", and no table says that its wire stands that"}
    then = "" if found.suits is None else wire.get(found.suits, "")
    return f"; the next fuse that is made and carries it: {amount(found.next, 'A')}{then}"


def _range(found: Range, limit: Fraction, unit: str, high: bool) -> str:
    """The end of a range that decides; both where neither does."""
    low, top = found.low, found.high
    if low is not None and top is not None and amount(low, unit) == amount(top, unit):
        return apart(low, limit, unit)
    if low is not None and top is not None:
        decides = (top < limit or low > limit) if unit == "V" else (low >= limit or top < limit)
        if not decides:
            return f"between {apart(low, limit, unit)} and {apart(top, limit, unit)}"
    if high and top is not None:
        return f"{apart(top, limit, unit)} at most"
    if low is not None:
        return f"{apart(low, limit, unit)} at least"
    return f"not more than {apart(top, limit, unit)}" if top is not None else "nobody knows how much"


def formula(sized: Sized) -> str:
    """How it is reckoned, in one sentence; empty where nothing is."""
    match sized.numbers:
        case Continuous() as found:
            warm = "" if found.warm is None else f", in air of {amount(found.warm, 'degC')}"
            share = amount(found.share, "% of its rating")
            return f"A fuse carries {share} for long{warm}: {amount(found.limit, 'A')}."
        case Protects() as found:
            return f"{_lying(found)}, against {f'the fuse of {found.of}' if found.of else 'its fuse'}."
        case Carries() as found:
            return f"{_lying(found)}, against what flows."
        case Drop() as found:
            far, flows = amount(found.length, "m"), amount(found.current, "A")
            each = _range(found.ohm_per_km, Fraction(0), "ohm/km", high=sized.fit is not Fit.NOT)
            warm = f"at {amount(found.temperature, 'degC')}"
            limit = f"{amount(found.percent, '%')} of {amount(found.nominal, 'V')}"
            wire = f"Resistance of {size(found.size)} ({each} {warm})"
            return f"{wire} times twice the length ({far}) times {flows}, against {limit}."
        case Inrush() as found:
            holds = "" if found.holds is None else f"; such a fuse does not open before {show_time(found.holds)}"
            opens = "" if found.opens is None else f"; it has opened after {show_time(found.opens)}"
            return f"That is {amount(found.percent, '% of its rating')}{holds}{opens}."
        case None:
            return ""
        case _:
            assert_never(sized.numbers)


def _lying(found: Protects | Carries) -> str:
    instead = "" if found.instead is None else f", counted as {size(found.instead)}"
    lies = "alone" if found.bundle == 1 else f"in a bundle of {found.bundle}"
    warm = f"in air of {amount(found.temperature, 'degC')}"
    return f"What a wire of {size(found.size)}{instead}, lying {lies}, {warm}, carries for long"


def source(table: Table) -> str:
    """Where the numbers of a table are from, in one line."""
    standing = "from memory" if table.standing is Standing.MEMORY else "read"
    read = f"{standing}: {table.read}" if table.read else standing
    note = f" Note: {table.note}." if table.note else ""
    return f"{table.title}: {table.standard} ({table.edition}); {read}.{note}"
