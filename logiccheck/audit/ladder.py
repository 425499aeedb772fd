"""All comparisons of the same two deadlines, from the least bound to the greatest: each implies those below it.

So only the highest that holds and the lowest that does not say anything of times. When bounds clash, what is learned
is made as strong as it can be: of a ladder in the clash the comparison that says least and still clashes, for each
comparison of the other ladder.
Reference: S. Cotton, O. Maler, "Fast and flexible difference constraint propagation for DPLL(T)", SAT 2006.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from logiccheck.audit.differences import Bound, Weight, weight
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Micros


class Rung(NamedTuple):
    """More than `bound` microseconds ahead, or `or_same`: at least that; `lit` says so."""

    bound: Micros
    or_same: bool
    lit: int


class Ladder:
    """Comparisons of the deadline `point` with the one it is held `against`."""

    def __init__(self, rungs: Sequence[Rung]) -> None:
        self.rungs = sorted(rungs, key=lambda rung: (rung.bound, not rung.or_same))

    def order(self) -> Iterator[list[int]]:
        """Clauses: each rung implies the one below it."""
        yield from ([low.lit, -high.lit] for low, high in pairwise(self.rungs))

    def standing(
        self, holds: Callable[[int], bool], deadlines: tuple[str, str], why: tuple[int, ...]
    ) -> Iterator[Standing]:
        """The highest rung that holds and the lowest that does not; `why` both deadlines are there."""
        first = bisect_left(self.rungs, True, key=lambda rung: not holds(rung.lit))
        if first > 0:
            yield Standing(self, first - 1, True, *deadlines, why)
        if first < len(self.rungs):
            yield Standing(self, first, False, *deadlines, why)


@frozen
class Standing:
    """One rung that holds, or one that does not, between two deadlines that are there."""

    ladder: Ladder
    number: int
    holding: bool
    point: str
    against: str
    why: tuple[int, ...]

    def bound(self, number: int | None = None) -> Bound:
        """What it says of times, or what another rung on the same side would say."""
        rung = self.ladder.rungs[self.number if number is None else number]
        if self.holding:
            return Bound(self.against, self.point, -rung.bound, not rung.or_same, (*self.why, rung.lit))
        return Bound(self.point, self.against, rung.bound, rung.or_same, (*self.why, -rung.lit))

    def weakest(self, limit: Weight) -> int | None:
        """The number of the rung on the same side that says least and weighs less than this; None where none does."""
        numbers = range(len(self.ladder.rungs))
        if self.holding:
            found = bisect_left(numbers, True, key=lambda number: weight(self.bound(number)) < limit)
            return found if found < len(numbers) else None
        found = bisect_left(numbers, True, key=lambda number: weight(self.bound(number)) >= limit)
        return found - 1 if found > 0 else None

    def all_bounds(self) -> Iterator[Bound]:
        """What each rung would say, if it stood on the same side; what says least comes first."""
        count = len(self.ladder.rungs)
        yield from map(self.bound, range(count) if self.holding else reversed(range(count)))


def lessons(cycle: Sequence[Bound], standing: Mapping[Bound, Standing]) -> Iterator[set[int]]:
    """Sets of literals that cannot hold together because of a cycle that clashes, and others like it.

    Of what stands on a ladder the first in `standing` says as little as it can; where there is one other ladder in the
    cycle, this is told for each of its rungs.
    """
    on = [each for bound, each in standing.items() if bound in cycle]
    rest = [bound for bound in cycle if bound not in standing]
    if not on:
        yield _named(rest)
        return
    first, *others = on
    rows = [[bound] for bound in others[0].all_bounds()] if len(others) == 1 else [[each.bound() for each in others]]
    before = None
    for row in rows:
        weights = [weight(bound) for bound in (*rest, *row)]
        weakest = first.weakest((-sum(micros for micros, _ in weights), -sum(strict for _, strict in weights)))
        if weakest is not None and weakest != before:
            yield _named([*rest, *row, first.bound(weakest)])
            before = weakest


def _named(bounds: Sequence[Bound]) -> set[int]:
    """The literals that say these bounds."""
    return {lit for bound in bounds for lit in bound.why}
