"""Times as people say them: "3 s", "4 min 2 s", "80 ms"; and as a scenario writes them: "242 s"."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base.units import show_number

SECOND = 1_000_000
MINUTE = 60 * SECOND
HOUR = 60 * MINUTE


def said(micros: Fraction | int) -> str:
    """A time or duration in microseconds as people say it: "0 s", "0.3 s", "80 ms", "4 min 2 s", "1 h 30 min"."""
    rest = Fraction(micros)
    if 0 < rest < SECOND and (rest * 10) % SECOND != 0:
        return f"{show_number(rest / 1000)} ms"
    if rest < MINUTE:
        return f"{show_number(rest / SECOND)} s"
    parts = []
    for size, unit in ((HOUR, "h"), (MINUTE, "min")):
        count = rest // size
        rest -= count * size
        if count:
            parts.append(f"{count} {unit}")
    if rest:
        parts.append(f"{show_number(rest / SECOND)} s")
    return " ".join(parts)


def written(micros: Fraction | int) -> str:
    """The same instant or duration as one quantity of the language: "242.1 s"; microseconds where that is not exact."""
    seconds = show_number(Fraction(micros) / SECOND)
    return f"{seconds} s" if "/" not in seconds else f"{show_number(micros)} us"
