"""Of several cases, told apart by what never changes in a story, each that goes wrong with a shortest trace.

All cases share one unrolling: what was learned for one of them is known of the others. That a case has no trace of so
many moments is what the search knows; only a proof says that it has none at all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from typing import TypeAlias

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.shortest import world_changes
from logiccheck.engine.timing import Trace
from logiccheck.engine.unroll import Unrolling

Case: TypeAlias = tuple[int, ...]  # the index of the value that each of the names has


class Cases:
    """`names` of the world never change in a story of `cone`; `open_`: the cases that did not go wrong so far."""

    def __init__(self, cone: Cone, names: Sequence[str], cases: Iterable[Case], budget: Budget) -> None:
        self.cone, self.names = cone, names
        self.open_ = set(cases)
        self.last = 0  # the moments of the longest trace that was found
        self._unrolling = Unrolling(cone, budget)

    @property
    def moments(self) -> int:
        """Every case that is open has no trace of at most that many moments."""
        return len(self._unrolling.moments)

    def deeper(self) -> Iterator[tuple[Case, Trace]]:
        """One moment more: each case that goes wrong then, with a trace of the fewest moments, and of these of the
        fewest world changes. May raise OutOfTime, after which nothing more can be asked."""
        u = self._unrolling
        u.extend()
        if self.moments == 1:
            self._only_these()
        ending, changes = self._ending()
        fewer = None
        while self.open_ and (found := u.possible([ending])) is not None:
            self.last = self.moments
            trace = found[0]
            case = self._case(trace)
            number = world_changes(u, trace)
            if number:
                fewer = fewer or u.sat.at_most(changes)
                held = [ending, *self._lits(case)]
                while number > 0 and (better := u.possible([*held, fewer(number - 1)])) is not None:
                    trace = better[0]
                    number = world_changes(u, trace)
            yield case, trace
            self.drop(case)  # not before whoever asked has heard it: what they could not use stays open
        u.sat.add([-u.bad[-1]])

    def drop(self, case: Case) -> None:
        """Nothing more is asked of this case."""
        if case in self.open_:
            self.open_.remove(case)
            self._unrolling.sat.add([-lit for lit in self._lits(case)])

    def close(self) -> None:
        self._unrolling.sat.close()

    def _only_these(self) -> None:
        coded = self.cone.system.world.coded
        for case in product(*(coded[name].legal for name in self.names)):
            if case not in self.open_:
                self._unrolling.sat.add([-lit for lit in self._lits(case)])

    def _lits(self, case: Case) -> list[int]:
        first = self._unrolling.moments[0]
        return [
            first.lit(2 * node) if value >> place & 1 else -first.lit(2 * node)
            for name, value in zip(self.names, case, strict=True)
            for place, node in enumerate(self.cone.world[name])
        ]

    def _case(self, trace: Trace) -> Case:
        return tuple(
            sum(1 << place for place, node in enumerate(self.cone.world[name]) if trace[0][node]) for name in self.names
        )

    def _ending(self) -> tuple[int, list[int]]:
        """The literal of "it goes wrong at the last moment", which brings nothing where something is overdue by it; and
        a literal for each world change of each moment after the first."""
        u = self._unrolling
        ending, last = u.sat.new(), u.moments[-1]
        changes = [u.changes(k) for k in range(1, self.moments)]
        u.sat.add([-ending, u.bad[-1]])
        for lit in (*(last.lit(clock.due) for clock in self.cone.clocks), *(changes[-1] if changes else ())):
            u.sat.add([-ending, -last.lit(self.cone.overdue), -lit])
        return ending, [lit for each in changes for lit in each]
