"""What options take as values: seconds, megabytes, processes, instants; each from its text, or why it is none."""

from __future__ import annotations

import argparse
import re
from fractions import Fraction
from itertools import pairwise

from logiccheck.base.units import UNITS, Dimension, quantity, units_of

MOST_JOBS = 64
MOST_FAULTS = 12


def seconds(text: str) -> float:
    """A number of seconds above 0, as an option gives it."""
    return _above_0(text, "seconds", 30)


def allowance(text: str) -> float:
    """A number of seconds, 0 for none at all, as an option gives it."""
    return 0.0 if text.strip() == "0" else seconds(text)


def megabytes(text: str) -> float:
    """A number of megabytes above 0, as an option gives it."""
    return _above_0(text, "megabytes", 4000)


def _above_0(text: str, what: str, example: int) -> float:
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value < float("inf"):
        raise argparse.ArgumentTypeError(
            f"a number of {what} above 0 is meant, for example {example}, and not '{text}'"
        )
    return value


def jobs(text: str) -> int:
    """A number of processes, 1 or more, as an option gives it."""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_JOBS:
        raise argparse.ArgumentTypeError(
            f"a whole number of processes from 1 to {MOST_JOBS} is meant, for example 2, and not '{text}'"
        )
    return int(text)


def faults_at_once(text: str) -> int:
    """A number of faults, 1 or more, as an option gives it."""
    if not text.isdecimal() or not 1 <= int(text) <= MOST_FAULTS:
        raise argparse.ArgumentTypeError(
            f"a whole number of faults from 1 to {MOST_FAULTS} is meant, for example 2, and not '{text}'"
        )
    return int(text)


def instant(text: str) -> Fraction:
    """An instant in microseconds, as an option gives it: "12.5s", "12.5 s", "4 min 2 s", each unit less than the one
    before."""
    parts = re.findall(r"\s*(-?\d+(?:\.\d+)?)\s*([a-z]+)", text)
    known = units_of(Dimension.TIME)
    whole = "".join(number + unit for number, unit in parts) == "".join(text.split())
    readable = bool(parts) and whole and all(unit in known for _, unit in parts)
    sizes = [UNITS[unit].factor for _, unit in parts] if readable else []
    falling = all(more > less for more, less in pairwise(sizes))
    if not readable or not falling or any(number.startswith("-") for number, _ in parts[1:]):
        raise argparse.ArgumentTypeError(
            f"a time with its unit is meant ({', '.join(known)}), for example 12.5s, and not '{text}'"
        )
    return sum((quantity(Fraction(number), UNITS[unit]).value for number, unit in parts), Fraction(0))


TYPES = {
    "seconds": seconds,
    "allowance": allowance,
    "megabytes": megabytes,
    "jobs": jobs,
    "faults at once": faults_at_once,
    "instant": instant,
}
