"""The times that a story is told with: all on the coarsest grid that admits it, and there as early as they can be.

A grid is a unit: hours, minutes, seconds, tenths of a second, and so on in tenths. On a grid a bound between two times
is one of whole units, so that difference constraints decide there as exactly as they do in dense time (see `timing`).
A last moment at which something is overdue is told as the one "just after" the time by which it was due, and has this
time: it may be the time of the moment before it, too; what it shows as reached at most is not reached then. What other
watches show as reached at it need not be: nothing happens at it that could ask.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.timing import Edge, Fact, Trace, earliest, edges_of


@frozen
class Grid:
    """All times are multiples of `unit` microseconds; `late`: the last moment is the one just after its time, at which
    the time of the watch with this key is over."""

    unit: Fraction
    late: str = ""

    def edges(self, edges: Iterable[Edge], count: int) -> list[Edge]:
        """The constraints of a trace of so many moments with their bounds (scaled as in `timing`) in whole units."""
        scale, last, found = count + 2, count - 1, []
        for e in edges:
            most = -(-e.bound // scale)  # whole microseconds
            less = most * scale != e.bound
            if self.late and last in (e.tail, e.head):
                if e.fact in (Fact.GE, Fact.GT) and e.key != self.late:
                    continue
                less = e.head == last
            found.append(replace(e, bound=self._units(most, less)))
            if self.late and (e.fact, e.key, e.at) == (Fact.GT, self.late, last):
                found.append(replace(e, tail=e.head, head=e.tail, bound=self._units(-most, less=False)))
        return found

    def _units(self, most: int, less: bool) -> int:
        """The most whole units that are at most (less than) so many microseconds."""
        whole = most // self.unit
        return whole - 1 if less and whole * self.unit == most else whole


def units(count: int) -> Iterator[Fraction]:
    """h, min, s, 0.1 s, 0.01 s, ... in microseconds, down to one that admits whatever so many moments can do in time:
    around a cycle of them "less than" stands at most once for each.
    """
    yield Fraction(3_600_000_000)
    yield Fraction(60_000_000)
    unit = Fraction(1_000_000)
    while unit * (count + 2) >= 1:
        yield unit
        unit /= 10
    yield unit


def round_times(cone: Cone, trace: Trace, overdue: bool = False) -> list[Fraction]:
    """The times (microseconds) of a trace that is possible in time: the earliest ones on the coarsest grid on which it
    is; `overdue`: the last moment is just after what was due."""
    return times_on_grid(edges_of(cone, trace), len(trace), cone.late if overdue else "")


def times_on_grid(edges: Sequence[Edge], count: int, late: str) -> list[Fraction]:
    """As `round_times`, of so many moments under these constraints (scaled as in `timing`), which can hold together;
    `late` as of `Grid`."""
    for unit in units(count):
        times, _ = earliest(count, Grid(unit, late).edges(edges, count))
        if times is not None:
            return [time * unit for time in times]
    raise AssertionError("there is always a finer grid")
