"""Both ways to a proof in turn: refinement for a short while, zones, then the question in parts, then refinement again.

Refinement is strong where few deadlines matter among many timers, zones where a few timers count on each other; either
may take for ever where the other needs a moment. The shares of time were found with the families of
`tests/bench/families.py`.
Reference for trying several at once and in turn: B. Huberman, R. Lukose, T. Hogg, "An economics approach to hard
computational problems", Science 275, 1997.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.parts import parts
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.timing import Trace
from logiccheck.engine.zones.decide import Covered, decide
from logiccheck.engine.zones.search import TooManyPlaces
from logiccheck.engine.zones.sets import TooLarge
from logiccheck.model.circuit.aig import FALSE

REFINEMENT_SHARE = 0.2  # of what is left: refinement, each time but the last
ZONES_SHARE = 0.2  # zones, each time
PARTS_SHARE = 0.5  # the question in parts

LONG = 8  # moments of a trace from which on it helps the search for the story to know the fewest

Proof: TypeAlias = TimedProof | Covered


@frozen
class Never:
    """The bad thing never happens: one proof for the whole question, or one for each part; `engines` found them."""

    proofs: tuple[Proof, ...]
    engines: frozenset[Engine]


@frozen
class Sometimes:
    """It happens: the trace of some part is possible in time; `shortest`: none of the whole has fewer moments."""

    trace: Trace
    engine: Engine
    shortest: bool = False


def prove(cone: Cone, budget: Budget, engines: Collection[Engine] = BOTH) -> Never | Sometimes | None:
    """Whether the bad thing of a cone can happen; None when neither engine knows in time."""
    return _Search(exact(cone), frozenset(engines)).whole(cone, budget)


class _Search:
    """One question or part of one; refinement goes on where it stopped."""

    def __init__(self, full: Cone, engines: frozenset[Engine]) -> None:
        self.full, self.engines = full, engines
        self._refinement = Cegar(full)
        self._stopped = Engine.REFINEMENT not in engines

    def whole(self, cone: Cone, budget: Budget) -> Never | Sometimes | None:
        """`cone` is the question before its watches were made clocks."""
        for found in self._turns(cone, budget):
            if isinstance(found, Sometimes) and not found.shortest and len(found.trace) >= LONG:
                zones = self._zones(budget.part(ZONES_SHARE))
                return zones if isinstance(zones, Sometimes) else found
            if found is not None:
                return found
        return None

    def _turns(self, cone: Cone, budget: Budget) -> Iterator[Never | Sometimes | None]:
        yield self.short(budget)
        yield self._parts(parts(cone), budget.part(PARTS_SHARE))
        yield self.refine(budget)

    def short(self, budget: Budget) -> Never | Sometimes | None:
        """Each engine for its share."""
        return self.refine(budget.part(REFINEMENT_SHARE)) or self._zones(budget.part(ZONES_SHARE))

    def _parts(self, cones: list[Cone], budget: Budget) -> Never | Sometimes | None:
        """All parts: each is proved, or one happens; None as soon as one is not decided."""
        proofs: tuple[Proof, ...] = ()
        engines: frozenset[Engine] = frozenset()
        for cone in cones:
            found = _Search(exact(cone), self.engines).short(budget) if cone.bad != FALSE else Never((), frozenset())
            if not isinstance(found, Never):
                return replace(found, shortest=False) if found is not None else None
            proofs, engines = (*proofs, *found.proofs), engines | found.engines
        return Never(proofs, engines) if cones else None

    def refine(self, budget: Budget) -> Never | Sometimes | None:
        """Refinement goes on, unless it gave up."""
        if self._stopped:
            return None
        try:
            found = self._refinement.run(budget)
        except OutOfTime:
            return None
        self._stopped = found is None
        if found is None:
            return None
        engines = frozenset({Engine.REFINEMENT})
        return Never((found,), engines) if isinstance(found, TimedProof) else Sometimes(found, Engine.REFINEMENT)

    def _zones(self, budget: Budget) -> Never | Sometimes | None:
        if Engine.ZONES not in self.engines:
            return None
        try:
            found = decide(self.full, budget)
        except (OutOfTime, TooLarge, TooManyPlaces):
            return None
        engines = frozenset({Engine.ZONES})
        return Never((found,), engines) if isinstance(found, Covered) else Sometimes(found, Engine.ZONES, shortest=True)
