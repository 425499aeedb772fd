"""The shortest story: the first number of moments at which some sequence of moments is possible in time.

Among the stories of that length world changes are made fewest, then the last ties are settled (see `ties`), so that it
is the same story every time.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.cone import Cone
from logiccheck.engine.ties import first_of_equals
from logiccheck.engine.timing import Trace
from logiccheck.engine.unroll import Unrolling

GRACE = 1.0  # seconds at least, for choosing what to tell: what is found is told


class Search:
    """A search for the shortest story. `covered`: no story of at most that many moments goes wrong, save the one
    returned; it stays true when the search runs out of time."""

    def __init__(self, cone: Cone, budget: Budget) -> None:
        self.unrolling = Unrolling(cone, budget)
        self.covered = 0
        self.settled = True  # false: time ran out among stories of one length

    def run(self, most: int | None = None) -> Trace | None:
        """Goes on from where it stopped; None when no story of at most `most` moments goes wrong."""
        return self._settle() if self._reaches(most) else None

    def some(self, most: int | None = None) -> Trace | None:
        """As `run`, but any of the stories that are as short."""
        if not self._reaches(most):
            return None
        self.unrolling.end_here()
        return self._any()

    def begin_with(self, known: Trace) -> None:
        """No story goes wrong in fewer moments than this one of a part of the cone, and one as long as it may."""
        u = self.unrolling
        while self.covered < len(known) - 1:
            u.extend()
            u.sat.add([-u.bad[-1]])
            self.covered += 1
        u.extend()
        inputs = set(u.cone.inputs)
        alike = [
            moment.lit(2 * node if value else 2 * node + 1)
            for moment, values in zip(u.moments, known, strict=True)
            for node, value in values.items()
            if node in inputs
        ]
        u.possible([u.bad[-1], *alike])  # the solver goes on from what it found last

    def _reaches(self, most: int | None) -> bool:
        u = self.unrolling
        while most is None or self.covered < most:
            if len(u.moments) == self.covered:
                u.extend()
            if u.possible([u.bad[-1]]) is not None:
                return True
            u.sat.add([-u.bad[-1]])
            self.covered += 1
        return False

    def _any(self) -> Trace:
        found = self.unrolling.possible([])
        assert found is not None, "an end that brings nothing is as good as any"
        return found[0]

    def close(self) -> None:
        self.unrolling.sat.close()

    def _settle(self) -> Trace:
        """Of the stories of this length the one to tell; as near to it as time allows, and `settled` is false then."""
        u = self.unrolling
        u.budget = Budget(max(u.budget.left, GRACE))
        changes = u.end_here()
        trace = self._any()
        try:
            for better in chain(self._fewest_changes(trace, changes), first_of_equals(u)):
                trace = better
        except OutOfTime:
            self.settled = False
        return trace

    def _fewest_changes(self, trace: Trace, changes: list[int]) -> Iterator[Trace]:
        """With fewer and fewer world changes; from then on none has more."""
        u = self.unrolling
        if not changes:
            return
        at_most, number = u.sat.at_most(changes), world_changes(u, trace)
        while number > 0 and (better := u.possible([at_most(number - 1)])) is not None:
            trace, _ = better
            number = world_changes(u, trace)
            yield trace
        if number < len(changes):
            u.sat.add([at_most(number)])


def world_changes(u: Unrolling, trace: Trace) -> int:
    """How many world changes a trace has."""
    return sum(
        any(trace[k][node] != trace[k - 1][node] for node in nodes)
        for nodes in u.cone.world.values()
        for k in range(1, len(trace))
    )
