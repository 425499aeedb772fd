"""A duration as it is written, with its tolerance, and half and twice of it."""

from __future__ import annotations

import re
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.base.units import show_time
from logiccheck.explain.amounts import AMOUNT
from logiccheck.explain.edit import Change
from logiccheck.explain.site import Site
from logiccheck.lang.program import Window

_MARGIN = r"(?:\s*(?:\+-|\u00b1)\s*(?:[\d.]+\s*%|" + AMOUNT + r"))?"
DURATION = rf"(?:from\s+{AMOUNT}\s+to\s+{AMOUNT}|{AMOUNT}{_MARGIN})"


@frozen
class Time:
    """A duration at `at`, with what leads to it from `begin` on, and what would stand there for half and twice it."""

    begin: int
    at: Span
    half: str
    double: str

    @property
    def changes(self) -> tuple[Change, Change]:
        return Change(self.at, self.half), Change(self.at, self.double)


def time_in(site: Site, span: Span, lead: str, window: Window) -> Time | None:
    """The last duration behind `lead` in the span, and what is half and twice of it, its tolerance too; a constant
    gives way to what it stands for, as it may stand elsewhere. None where there is none."""
    found = [*re.finditer(lead + rf"({DURATION})", site.text(span))]
    if not found:
        return None
    at = Span(span.file, span.begin + found[-1].start(1), span.begin + found[-1].end(1))
    half, double = (_written(window, factor) for factor in (Fraction(1, 2), Fraction(2)))
    return Time(span.begin + found[-1].start(), at, half, double)


def _written(window: Window, factor: Fraction) -> str:
    """The window, so many times as long."""
    low, high, nominal = (each * factor for each in (window.lo, window.hi, window.nominal))
    if low == high:
        return show_time(nominal)
    if nominal - low == high - nominal:
        return f"{show_time(nominal)} +- {show_time(high - nominal)}"
    return f"from {show_time(low)} to {show_time(high)}"
