"""Units of measure: exact rationals in the base unit of each dimension, and durations in whole microseconds."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from logiccheck.base.frozen import frozen

ROUNDED = 3  # decimal places of a number that is rounded


class Dimension(Enum):
    """What a quantity measures; the value is how people call it."""

    TIME = "a time"
    CURRENT = "a current"
    VOLTAGE = "a voltage"
    RESISTANCE = "a resistance"
    POWER = "a power"
    SPIN = "an engine speed"
    TEMPERATURE = "a temperature"
    LENGTH = "a length"
    SECTION = "a cross-section"
    GAUGE = "a wire gauge"
    RATIO = "a percentage"
    VELOCITY = "a road speed"
    PRESSURE = "a pressure"
    FREQUENCY = "a frequency"
    CHARGE = "a charge"


@frozen
class Unit:
    """A value of x in this unit is x * factor + offset in the base unit of the dimension."""

    name: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)


@frozen
class Quantity:
    """`value` is exact and in the base unit of the dimension of `unit` (time: microseconds)."""

    value: Fraction
    unit: Unit

    @property
    def dimension(self) -> Dimension:
        return self.unit.dimension


def _table() -> dict[str, Unit]:
    """Every unit by its name, in each dimension the most usual first; the base unit has the factor 1."""
    psi = Fraction("4.4482216152605") / Fraction("0.0254") ** 2 / 100_000
    rows: tuple[tuple[str, Dimension, Fraction | int | str], ...] = (
        ("s", Dimension.TIME, 1_000_000),
        ("min", Dimension.TIME, 60_000_000),
        ("h", Dimension.TIME, 3_600_000_000),
        ("ms", Dimension.TIME, 1_000),
        ("us", Dimension.TIME, 1),
        ("A", Dimension.CURRENT, 1),
        ("mA", Dimension.CURRENT, "0.001"),
        ("V", Dimension.VOLTAGE, 1),
        ("mV", Dimension.VOLTAGE, "0.001"),
        ("ohm", Dimension.RESISTANCE, 1),
        ("mohm", Dimension.RESISTANCE, "0.001"),
        ("kohm", Dimension.RESISTANCE, 1_000),
        ("W", Dimension.POWER, 1),
        ("kW", Dimension.POWER, 1_000),
        ("rpm", Dimension.SPIN, 1),
        ("degC", Dimension.TEMPERATURE, 1),
        ("m", Dimension.LENGTH, 1),
        ("cm", Dimension.LENGTH, "0.01"),
        ("mm", Dimension.LENGTH, "0.001"),
        ("mm2", Dimension.SECTION, 1),
        ("AWG", Dimension.GAUGE, 1),
        ("SAE", Dimension.GAUGE, 1),
        ("%", Dimension.RATIO, 1),
        ("km/h", Dimension.VELOCITY, 1),
        ("mph", Dimension.VELOCITY, "1.609344"),
        ("bar", Dimension.PRESSURE, 1),
        ("mbar", Dimension.PRESSURE, "0.001"),
        ("kPa", Dimension.PRESSURE, "0.01"),
        ("psi", Dimension.PRESSURE, psi),
        ("Hz", Dimension.FREQUENCY, 1),
        ("Ah", Dimension.CHARGE, 1),
    )
    table = {name: Unit(name, dimension, Fraction(factor)) for name, dimension, factor in rows}
    table["degF"] = Unit("degF", Dimension.TEMPERATURE, Fraction(5, 9), Fraction(-160, 9))
    return table


UNITS: dict[str, Unit] = _table()

OTHER_SPELLINGS: dict[str, str] = {
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "S": "s", "msec": "ms", "µs": "us", "μs": "us",
    "minute": "min", "minutes": "min", "mins": "min", "hour": "h", "hours": "h", "hr": "h", "hrs": "h",
    "amp": "A", "amps": "A", "ampere": "A", "amperes": "A", "a": "A", "volt": "V", "volts": "V", "v": "V",
    "Ω": "ohm", "Ohm": "ohm", "ohms": "ohm", "watt": "W", "watts": "W", "w": "W", "1/min": "rpm", "RPM": "rpm",
    "C": "degC", "°C": "degC", "celsius": "degC", "F": "degF", "°F": "degF", "mm²": "mm2", "sqmm": "mm2",
    "awg": "AWG", "sae": "SAE", "percent": "%", "kmh": "km/h", "kph": "km/h", "metre": "m", "meter": "m",
    "metres": "m", "meters": "m", "hz": "Hz", "AH": "Ah", "ah": "Ah",
}  # fmt: skip
"""What people write, and the unit of ours they mean."""


def units_of(dimension: Dimension) -> tuple[str, ...]:
    """The names of the units of a dimension, in the order of the table."""
    return tuple(unit.name for unit in UNITS.values() if unit.dimension is dimension)


def quantity(number: Fraction, unit: Unit) -> Quantity:
    """The quantity that is `number` times `unit`."""
    return Quantity(number * unit.factor + unit.offset, unit)


def in_unit(value: Fraction | int, unit: Unit) -> Fraction:
    """A value in the base unit of the dimension of `unit`, counted in `unit`."""
    return (Fraction(value) - unit.offset) / unit.factor


def whole_micros(time: Quantity) -> int | None:
    """The time in whole microseconds; None if it is finer than that."""
    assert time.dimension is Dimension.TIME
    return int(time.value) if time.value.denominator == 1 else None


def show_number(value: Fraction | int) -> str:
    """The number in decimal notation if that is exact ("0.25"), else as a fraction ("1/3")."""
    value = Fraction(value)
    twos = fives = 0
    rest = value.denominator
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return f"{value.numerator}/{value.denominator}"
    places = max(twos, fives)
    if places == 0:
        return str(value.numerator)
    digits = str(abs(value.numerator) * 10**places // value.denominator).rjust(places + 1, "0")
    return f"{'-' if value < 0 else ''}{digits[:-places]}.{digits[-places:]}"


def show_quantity(value: Fraction | int, unit: str) -> str:
    """A value in the base unit as people write it in `unit`, a name of the table: "300 rpm"."""
    return f"{show_number(in_unit(value, UNITS[unit]))} {unit}"


def said_quantity(value: Fraction | int, unit: str) -> str:
    """The same for a sentence, to be read and not to be typed: "about 68.351 mph" where no decimal number is exact."""
    count = in_unit(value, UNITS[unit])
    shown = show_number(count)
    if "/" not in shown:
        return f"{shown} {unit}"
    places = ROUNDED if abs(count) >= 1 else 2 * ROUNDED
    return f"about {show_number(round(count, places))} {unit}"


def show_time(micros: Fraction | int) -> str:
    """A time in microseconds in the unit in which it is a short number: "4 min", "0.3 s", "80 ms"."""
    micros = Fraction(micros)
    if micros == 0:
        return "0 s"
    for name in ("h", "min", "s"):
        count = micros / UNITS[name].factor
        if count.denominator == 1 and (name == "s" or abs(count) >= 2 or name == "h"):
            return f"{count} {name}"
    if (micros / 100_000).denominator == 1:
        return f"{show_number(micros / 1_000_000)} s"
    if abs(micros) < 1_000:
        return f"{show_number(micros)} us"
    if abs(micros) < 1_000_000:
        return f"{show_number(micros / 1_000)} ms"
    return f"{show_number(micros / 1_000_000)} s"
