"""All signals of a played scenario in time, as exact values and not yet as words: what waveforms are made from."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from logiccheck.base.frozen import frozen


class Sort(Enum):
    """What the values of a curve are; those of all but a number are places in its `words`."""

    BIT = "bit"  # 0 and 1
    WIRE = "wire"  # dead, live, grounded, or both at once
    CHOICE = "choice"  # the positions of a switch
    NUMBER = "number"  # in its unit


@frozen
class Change:
    """From `time` on (microseconds) the signal has this value; None: a sense without power, or what never settles."""

    time: Fraction
    value: Fraction | None


@frozen
class Curve:
    """One signal in time: its settled values from time 0 on, no two after each other alike; `place` as in a table."""

    name: str
    label: str
    place: str
    sort: Sort
    words: tuple[str, ...]
    unit: str  # of a number
    changes: tuple[Change, ...]


@frozen
class Chart:
    """All signals of a played scenario, exact: its moments and its last instant in microseconds.

    If it does not settle, the last moment is the one at which it never does.
    """

    moments: tuple[Fraction, ...]
    end: Fraction
    settles: bool
    curves: tuple[Curve, ...]
