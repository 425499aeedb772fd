"""Quantities are exact, and are shown as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logiccheck.base.units import (
    OTHER_SPELLINGS,
    UNITS,
    Dimension,
    in_unit,
    quantity,
    said_quantity,
    show_number,
    show_quantity,
    show_time,
    units_of,
    whole_micros,
)


@pytest.mark.parametrize(
    ("number", "unit", "value"),
    [
        ("0.1", "s", 100_000),
        ("4", "min", 240_000_000),
        ("80", "ms", 80_000),
        ("300", "mA", Fraction(3, 10)),
        ("10", "kohm", 10_000),
        ("95", "degC", 95),
        ("212", "degF", 100),
        ("-40", "degF", -40),
        ("60", "mph", Fraction("96.56064")),
        ("250", "kPa", Fraction(5, 2)),
    ],
)
def test_values_are_exact(number: str, unit: str, value: Fraction | int) -> None:
    """A tenth of a second is one tenth of a second, and a degree Fahrenheit five ninths of one Celsius."""
    assert quantity(Fraction(number), UNITS[unit]).value == value


def test_psi() -> None:
    """One pound-force on a square inch is 6894.757... pascals (from the definitions of pound, inch and gravity)."""
    assert abs(quantity(Fraction(1), UNITS["psi"]).value * 100_000 - Fraction("6894.757293168")) < Fraction("1e-9")


@given(st.fractions(), st.sampled_from(sorted(UNITS)))
def test_there_and_back(number: Fraction, unit: str) -> None:
    """Into the base unit and back changes nothing."""
    assert in_unit(quantity(number, UNITS[unit]).value, UNITS[unit]) == number


def test_whole_micros() -> None:
    """A time finer than a microsecond has none."""
    assert whole_micros(quantity(Fraction("0.3"), UNITS["s"])) == 300_000
    assert whole_micros(quantity(Fraction("0.0001"), UNITS["ms"])) is None


@given(st.decimals(allow_nan=False, allow_infinity=False, places=6, min_value=-(10**9), max_value=10**9))
def test_numbers_are_shown_exactly(number: object) -> None:
    """What is shown reads as the same number."""
    value = Fraction(str(number))
    assert Fraction(show_number(value)) == value
    assert "e" not in show_number(value)


@pytest.mark.parametrize(
    ("value", "text"),
    [(Fraction(1, 3), "1/3"), (Fraction(-1, 8), "-0.125"), (Fraction(5), "5"), (Fraction(3, 200), "0.015"), (0, "0")],
)
def test_show_number(value: Fraction | int, text: str) -> None:
    """Decimals where they end, fractions where they do not."""
    assert show_number(value) == text


@pytest.mark.parametrize(
    ("micros", "text"),
    [
        (0, "0 s"),
        (1, "1 us"),
        (1500, "1.5 ms"),
        (80_000, "80 ms"),
        (300_000, "0.3 s"),
        (1_000_000, "1 s"),
        (2_500_000, "2.5 s"),
        (60_000_000, "60 s"),
        (90_000_000, "90 s"),
        (240_000_000, "4 min"),
        (3_600_000_000, "1 h"),
        (Fraction(1, 2), "0.5 us"),
    ],
)
def test_show_time(micros: Fraction | int, text: str) -> None:
    """The unit in which it is a short number."""
    assert show_time(micros) == text


def test_show_quantity() -> None:
    """In the unit that was asked for."""
    assert show_quantity(100, "degF") == "212 degF"
    assert show_quantity(Fraction(3, 10), "mA") == "300 mA"


def test_each_dimension_has_units_and_spellings_lead_to_them() -> None:
    """What people write elsewhere leads to a unit of ours, and never hides one."""
    assert all(units_of(dimension) for dimension in Dimension)
    assert set(OTHER_SPELLINGS.values()) <= set(UNITS)
    assert not set(OTHER_SPELLINGS) & set(UNITS)


def test_said_quantity() -> None:
    """To be read: a number that no decimal notation shows exactly is rounded, and said to be."""
    assert said_quantity(110, "km/h") == "110 km/h"
    assert said_quantity(110, "mph") == "about 68.351 mph"
    assert said_quantity(Fraction(1, 1000), "mph") == "about 0.000621 mph"
