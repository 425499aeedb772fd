"""A few unknown lengths that meet linear inequalities: the ranges they leave, by elimination, and one choice of them.

Reference: J. Fourier, T. Motzkin; see A. Schrijver, "Theory of Linear and Integer Programming", 1986, section 12.2.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.engine.grid import units

MOST_ROWS = 2000


class TooMany(Exception):
    """The elimination grows beyond what is looked at."""


@frozen
class Row:
    """The sum of `parts` (times the unknowns) and `rest` is at least 0, or (`more`) more than 0."""

    parts: tuple[int, ...]
    rest: int
    more: bool = False


@frozen
class Range:
    """From `low` to `high`, the ends included unless `above` or `below` them."""

    low: Fraction
    above: bool
    high: Fraction
    below: bool

    def holds(self, value: Fraction | int) -> bool:
        return (self.low < value or (self.low == value and not self.above)) and (
            value < self.high or (value == self.high and not self.below)
        )

    def roundest(self, wanted: int) -> int | None:
        """The wanted whole number if it is in the range; else of the roundest ones (as times are) the nearest to it."""
        if self.holds(wanted):
            return wanted
        for unit in units(0):
            step = int(unit)
            if step == 0:
                break
            ends = (-(-self.low // step) * step, self.high // step * step)
            inside = [v for end in ends for v in (end - step, end, end + step) if self.holds(v)]
            if inside:
                return min(inside, key=lambda v: (abs(v - wanted), v))
        return None


def choose(rows: Sequence[Row], wanted: Sequence[int]) -> list[int] | None:
    """Whole numbers that meet all rows, one after the other as near to the wanted ones as they are round (see
    `Range.roundest`); None if no numbers at all do. Raises TooMany."""
    left = list(rows)
    chosen: list[int] = []
    for k, want in enumerate(wanted):
        found = _range(_without_later(left, k), k)
        if found is None:
            return None
        value = found.roundest(want)
        if value is None:
            raise TooMany
        chosen.append(value)
        left = [_with_value(row, k, value) for row in left]
    return chosen


def _with_value(row: Row, k: int, value: int) -> Row:
    parts = (*row.parts[:k], 0, *row.parts[k + 1 :])
    return Row(parts, row.rest + row.parts[k] * value, row.more)


def _without_later(rows: Sequence[Row], k: int) -> list[Row]:
    """What the rows say of the unknown k alone, those before it being replaced."""
    left = list(rows)
    for later in range(k + 1, len(left[0].parts)):
        least = [row for row in left if row.parts[later] > 0]
        most = [row for row in left if row.parts[later] < 0]
        left = [row for row in left if row.parts[later] == 0]
        if len(least) * len(most) + len(left) > MOST_ROWS:
            raise TooMany
        left += [_summed(a, -b.parts[later], b, a.parts[later]) for a in least for b in most]
        left = list(dict.fromkeys(left))
    return left


def _summed(a: Row, times_a: int, b: Row, times_b: int) -> Row:
    parts = tuple(x * times_a + y * times_b for x, y in zip(a.parts, b.parts, strict=True))
    return Row(parts, a.rest * times_a + b.rest * times_b, a.more or b.more)


def _range(rows: Iterable[Row], k: int) -> Range | None:
    """What rows that speak of the unknown k alone leave of it; None: nothing. They bound it on both sides."""
    lows, highs = [], []
    for row in rows:
        if row.parts[k] == 0:
            if row.rest < 0 or (row.rest == 0 and row.more):
                return None
            continue
        end = Fraction(-row.rest, row.parts[k])
        if row.parts[k] > 0:
            lows.append((end, row.more))
        else:
            highs.append((-end, row.more))
    low, above = max(lows)
    negative, below = max(highs)
    found = Range(low, above, -negative, below)
    empty = found.low > found.high or (found.low == found.high and (above or below))
    return None if empty else found
