"""Zones: what is known of the deadlines of running clocks, as bounds on differences.

A zone holds for each pair of points a bound on their difference. Point 0 is the moment just passed, point k the
deadline of the k-th of its clocks. Bounds are whole numbers: 2 c for "less than c", 2 c + 1 for "at most c"
(microseconds). A zone is *closed* when no bound follows more tightly from others; all zones here are closed and not
empty, so that one zone holds all of another exactly when each of its bounds is no tighter.

A run that starts at a moment gets its deadline there, anywhere in its window. A running clock is a difference of at
most its longest time, so that there are only so many zones: nothing has to be widened.
References: D. Dill, "Timing assumptions and verification of finite-state concurrent systems", 1989; J. Bengtsson, W.
Yi, "Timed automata: semantics, algorithms and tools", 2004 (closed bounds and their operations).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from operator import le
from typing import TypeAlias

from logiccheck.base.frozen import frozen

Rows: TypeAlias = list[list[int]]  # rows[a][b] bounds point a - point b

SAME = 1  # at most 0
BEFORE = 0  # less than 0


@frozen
class Zone:
    """`clocks` are those that run, rising; `bounds` the rows one after another."""

    clocks: tuple[int, ...]
    bounds: tuple[int, ...]

    def holds(self, other: Zone) -> bool:
        """Whether all of another zone of the same clocks lies in this one."""
        return all(map(le, other.bounds, self.bounds))

    @property
    def rows(self) -> Rows:
        n = len(self.clocks) + 1
        return [list(self.bounds[k : k + n]) for k in range(0, n * n, n)]


NOTHING_RUNS = Zone((), (SAME,))


def add(a: int, b: int) -> int:
    """The bound of two differences in a row."""
    return a + b - ((a | b) & 1)


def next_moments(zone: Zone) -> Iterator[tuple[frozenset[int], Rows]]:
    """Each set of clocks that can fall due together at the next moment, with the rows of the zone at that moment."""
    rows = zone.rows
    for k in range(1, len(rows)):
        rows[k][0] &= ~1  # time has passed since the last moment
    rows[0] = (
        [min(column) if b else SAME for b, column in enumerate(zip(*rows[1:], strict=True))] if rows[1:] else [SAME]
    )
    yield from _choose(zone.clocks, 0, rows, frozenset())


def _choose(clocks: tuple[int, ...], k: int, rows: Rows, due: frozenset[int]) -> Iterator[tuple[frozenset[int], Rows]]:
    """Decides clock by clock whether it falls due; `rows` are closed with what is decided so far."""
    if k == len(clocks):
        yield due, rows
        return
    later = _tightened(rows, 0, k + 1, BEFORE)
    if later is not None:
        yield from _choose(clocks, k + 1, later, due)
    now = _tightened(rows, k + 1, 0, SAME)
    if now is not None:
        yield from _choose(clocks, k + 1, now, due | {clocks[k]})


def _tightened(rows: Rows, a: int, b: int, bound: int) -> Rows | None:
    """Closed rows with one bound more; None when nothing is left."""
    if bound >= rows[a][b]:
        return rows
    if add(bound, rows[b][a]) < SAME:
        return None
    after = rows[b]
    return [[min(old, add(add(row[a], bound), more)) for old, more in zip(row, after, strict=True)] for row in rows]


def after_moment(zone: Zone, rows: Rows, goes_on: Sequence[int], starts: Mapping[int, tuple[int, int]]) -> Zone:
    """What is known after a moment whose `rows` are given: these clocks of the zone go on, and these start, each with
    its shortest and longest time."""
    place = {clock: k for k, clock in enumerate(zone.clocks, 1)}
    clocks = tuple(sorted((*goes_on, *starts)))
    points = [(0, 0, 0), *((place[c], 0, 0) if c not in starts else (0, *starts[c]) for c in clocks)]
    bounds = [
        SAME if a == b else rows[p][q] + 2 * (longest - shortest)
        for a, (p, _, longest) in enumerate(points)
        for b, (q, shortest, _) in enumerate(points)
    ]
    return Zone(clocks, tuple(bounds))
