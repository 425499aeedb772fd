"""All comparisons of the same two deadlines, from the least bound to the greatest: each implies those below it.

So only the highest that holds and the lowest that does not say anything of times. When bounds clash, what is learned
is made as strong as it can be: of a ladder in the clash the comparison that says least and still clashes.
Reference: S. Cotton, O. Maler, "Fast and flexible difference constraint propagation for DPLL(T)", SAT 2006.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from logiccheck.audit.differences import Bound, Weight, weight
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


@dataclass(frozen=True, slots=True)
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

    def weakest(self, spare: Weight) -> Bound:
        """What the rung says that says least and weighs less than `spare` more than this one."""
        own, count = weight(self.bound()), len(self.ladder.rungs)
        for number in range(self.number) if self.holding else range(count - 1, self.number, -1):
            bound = self.bound(number)
            more = weight(bound)
            if (more[0] - own[0], more[1] - own[1]) < spare:
                return bound
        return self.bound()


def weakened(cycle: Sequence[Bound], standing: Mapping[Bound, Standing]) -> set[int]:
    """Literals that cannot hold together because of a cycle that clashes; what stands on a ladder says as little as it
    can, the first in `standing` first."""
    spare_micros, spare_strict = (-sum(part) for part in zip(*map(weight, cycle), strict=True))
    why = {lit for bound in cycle if bound not in standing for lit in bound.why}
    for bound, each in standing.items():
        if bound in cycle:
            weaker = each.weakest((spare_micros, spare_strict))
            spare_micros -= weaker.limit - bound.limit
            spare_strict -= bound.strict - weaker.strict
            why.update(weaker.why)
    return why
