"""Can times and deadlines differ like that: difference bounds over real numbers, some of them strict.

Reference: R. Bellman, "On a routing problem", Quarterly of Applied Mathematics 16, 1958: bounds x - y <= c can hold
together exactly if no cycle of them adds up to less than nothing (or to nothing, with a strict one in it).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple, TypeAlias

from logiccheck.lang.program import Micros


class Bound(NamedTuple):
    """later - earlier <= limit, or < limit when `strict`; `why` are the literals that say so."""

    later: str
    earlier: str
    limit: Micros
    strict: bool
    why: tuple[int, ...]


Weight: TypeAlias = tuple[Micros, int]  # microseconds, and less by one for each strict bound; in the order of pairs


def weight(bound: Bound) -> Weight:
    """Bounds around a cycle clash when their weights add up to less than (0, 0)."""
    return bound.limit, -bound.strict


def clash(bounds: Sequence[Bound]) -> tuple[Bound, ...] | None:
    """Some bounds that cannot hold together, a cycle of them; None if all can.

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


def _around(reason: dict[str, Bound], point: str, count: int) -> tuple[Bound, ...]:
    """The cycle that a point still moves because of: so many steps back lead into it."""
    for _ in range(count):
        point = reason[point].earlier
    cycle = [reason[point]]
    while cycle[-1].earlier != point:
        cycle.append(reason[cycle[-1].earlier])
    return tuple(cycle)
