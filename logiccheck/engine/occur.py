"""Situations that can occur, looked for together: one unrolling of a few moments in which every story may show several.

Most situations that a proof needs as its case occur within a few moments of some story; one search over all of them
costs less than a question for each. What is not found here is asked for by itself.
"""

from __future__ import annotations

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.cone import Cone
from logiccheck.engine.unroll import Unrolling
from logiccheck.model.circuit.aig import Lit

MOST_MOMENTS = 5
SOLVER = "minisat22"  # quicker than others where the same few moments are asked about many times


class Occurrences:
    """`cone` is that of all situations together (its question is whether any of them occurs)."""

    def __init__(self, cone: Cone, situations: set[Lit], seconds: float) -> None:
        order = set(cone.order)
        self.open = {lit for lit in situations if lit >> 1 in order}
        self.unrolling = Unrolling(cone, Budget(seconds), SOLVER)
        self.found: set[Lit] = set()

    def occurs(self, situation: Lit) -> bool:
        """Whether a story of at most MOST_MOMENTS moments that shows the situation was found."""
        if situation in self.found or situation not in self.open:
            return situation in self.found
        u = self.unrolling
        try:
            for k in range(MOST_MOMENTS):
                if len(u.moments) == k:
                    u.extend()
                if u.possible([u.moments[k].lit(situation)]) is not None:
                    self._note()
                    break
        except OutOfTime:
            pass
        return situation in self.found

    def _note(self) -> None:
        """Every situation that the story just found shows at any of its moments."""
        for moment in self.unrolling.moments:
            self.found |= {lit for lit in self.open - self.found if moment.value(lit)}

    def close(self) -> None:
        self.unrolling.sat.close()
