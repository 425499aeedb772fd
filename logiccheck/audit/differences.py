"""Can times and deadlines differ like that: difference bounds over real numbers, some of them strict.

Reference: R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16, 1958: bounds x - y <= c can hold
together exactly if no cycle of them adds up to less than nothing (or to nothing, with a strict one in it).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from logiccheck.lang.program import Micros


class Bound(NamedTuple):
    """later - earlier <= limit, or < limit when `strict`; `why` are the literals that say so."""

    later: str
    earlier: str
    limit: Micros
    strict: bool
    why: tuple[int, ...]


def clash(bounds: Sequence[Bound]) -> frozenset[int] | None:
    """Literals of some bounds that cannot hold together; None if all can.

    Distances are pairs (microseconds, -number of strict bounds) in their order, so that nothing is rounded.
    """
    points = sorted({point for bound in bounds for point in (bound.later, bound.earlier)})
    distance = dict.fromkeys(points, (0, 0))
    reason: dict[str, Bound] = {}
    for _ in range(len(points) + 1):
        moved = ""
        for bound in bounds:
            from_micros, from_strict = distance[bound.earlier]
            found = (from_micros + bound.limit, from_strict - bound.strict)
            if found < distance[bound.later]:
                distance[bound.later] = found
                reason[bound.later] = bound
                moved = bound.later
        if not moved:
            return None
    return _around(reason, moved, len(points))


def _around(reason: dict[str, Bound], point: str, count: int) -> frozenset[int]:
    """The cycle that a point still moves because of: so many steps back lead into it."""
    for _ in range(count):
        point = reason[point].earlier
    why: set[int] = set()
    at = point
    while True:
        why.update(reason[at].why)
        at = reason[at].earlier
        if at == point:
            return frozenset(why)
