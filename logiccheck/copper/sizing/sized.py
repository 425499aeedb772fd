"""What a check of copper against a published table comes to: numbers, limit, verdict, and what it rests on."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.copper.tables.size import Size
from logiccheck.copper.tables.table import Table
from logiccheck.lang.program import Micros


class Fit(Enum):
    """The value is how people call it."""

    FITS = "fits"
    NOT = "does not fit"
    OPEN = "not decided"


class Kind(Enum):
    """What is held against what."""

    CONTINUOUS = "continuous current against fuse"
    PROTECTS = "fuse against wire"
    CARRIES = "continuous current against wire"
    DROP = "voltage lost on the wire"
    INRUSH = "inrush against fuse"


class Lack(Enum):
    """Why something is not decided."""

    CURRENT = "current"  # the file does not say it, or it was not found out
    FUSE = "fuse"
    PROTECTOR = "protector"  # no fuse of its own, and none that all which flows there comes through
    WIRE = "wire"
    NOMINAL = "nominal voltage"
    SIZE = "size"  # no table has wires of that size
    BUNDLE = "bundle"  # the table ends before that many
    HEAT = "temperature"  # the table ends before that temperature
    GATE = "gate"  # published times say neither that the fuse opens nor that it does not
    BETWEEN = "between"  # the limit lies between what two tables have


@frozen
class Range:
    """What is known of a number: not below `low`, not above `high`; None where no table says anything."""

    low: Fraction | None
    high: Fraction | None


@frozen
class Continuous:
    """`limit`: what the fuse carries for long, `share` percent of its rating; `next`: the next rating that is made and
    carries the current, None if no table has one. Amperes. `warm`: the air (degC), where the share is less for it;
    `suits`: whether the wire stands the next rating, None where no wire is written."""

    current: Fraction
    fuse: Fraction
    share: Fraction
    limit: Fraction
    next: Fraction | None
    warm: Fraction | None = None
    suits: Fit | None = None


@frozen
class Protects:
    """`carries`: what the wire may carry for long (amperes), as it lies, in air of `temperature` (degC); `instead`: the
    size of the table that stands in for that of the wire; `of`: the wire or output whose fuse it is, empty for its
    own."""

    fuse: Fraction
    size: Size
    carries: Range
    temperature: Fraction
    bundle: int
    instead: Size | None
    of: str = ""


@frozen
class Carries:
    """The same for `current`, which flows for long (amperes)."""

    current: Fraction
    size: Size
    carries: Range
    temperature: Fraction
    bundle: int
    instead: Size | None


@frozen
class Drop:
    """Volts lost there and back over twice `length` (m), at `temperature` (degC); ohm/km is that of the wire."""

    current: Fraction
    size: Size
    length: Fraction
    temperature: Fraction
    ohm_per_km: Range
    lost: Range
    limit: Fraction  # V
    percent: Fraction  # of nominal, that is the limit
    nominal: Fraction


@frozen
class Inrush:
    """`percent` of the rating flows for `lasts`. `holds`: a fuse carries that for less than this at least; `opens`: it
    opens within this (both microseconds); None where no table says. `of`: whose inrush it is,
    empty for its own."""

    inrush: Fraction
    lasts: Micros
    fuse: Fraction
    percent: Fraction
    holds: Fraction | None
    opens: Fraction | None
    of: str = ""


Numbers: TypeAlias = Continuous | Protects | Carries | Drop | Inrush


@frozen
class Sized:
    """`numbers` is None where not even the arithmetic can be done; `lacks` says why it is not decided."""

    kind: Kind
    fit: Fit
    numbers: Numbers | None
    lacks: tuple[Lack, ...]
    basis: tuple[Table, ...]


def lacking(kind: Kind, *lacks: Lack) -> Sized:
    """Not decided, and nothing reckoned, for want of these."""
    return Sized(kind, Fit.OPEN, None, lacks, ())


def judged(at_most: Fraction, low: Fraction | None, high: Fraction | None) -> Fit:
    """Whether something is at most a number of which only its range is known."""
    if low is not None and at_most <= low:
        return Fit.FITS
    return Fit.NOT if high is not None and at_most > high else Fit.OPEN
