"""Times and quantities as people say them: "3 s", "4 min 2 s", "80 ms", "0 rpm"; and as the language writes them."""

from __future__ import annotations

from fractions import Fraction

SECOND = 1_000_000
MINUTE = 60 * SECOND
HOUR = 60 * MINUTE


def decimal(value: Fraction | int) -> str:
    """An exact number in decimal digits without needless zeros; as a fraction "1/3" where no decimal is exact."""
    value = Fraction(value)
    rest, places = value.denominator, 0
    for prime in (2, 5):
        power = 0
        while rest % prime == 0:
            rest, power = rest // prime, power + 1
        places = max(places, power)
    if rest != 1:
        return f"{value.numerator}/{value.denominator}"
    digits = str(abs(value.numerator) * 10**places // value.denominator).rjust(places + 1, "0")
    whole, part = (digits[:-places], digits[-places:]) if places else (digits, "")
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"


def said(micros: Fraction | int) -> str:
    """A time or duration in microseconds as people say it: "0 s", "0.3 s", "80 ms", "4 min 2 s", "1 h 30 min"."""
    rest = Fraction(micros)
    if 0 < rest < SECOND and (rest * 10) % SECOND != 0:
        return f"{decimal(rest / 1000)} ms"
    if rest < MINUTE:
        return f"{decimal(rest / SECOND)} s"
    parts = []
    for size, unit in ((HOUR, "h"), (MINUTE, "min")):
        count = rest // size
        rest -= count * size
        if count:
            parts.append(f"{count} {unit}")
    if rest:
        parts.append(f"{decimal(rest / SECOND)} s")
    return " ".join(parts)


def written(micros: Fraction | int) -> str:
    """The same instant or duration as one quantity of the language: "242.1 s"; microseconds where that is not exact."""
    seconds = decimal(Fraction(micros) / SECOND)
    return f"{seconds} s" if "/" not in seconds else f"{decimal(micros)} us"


def quantity(value: Fraction | int, unit: str) -> str:
    """A number with its unit: "400.5 rpm"."""
    return f"{decimal(value)} {unit}".rstrip()
