"""Which of many conditions one moment allows together, by all that follows at once, whatever is stored before it.

More may seem possible here than is, never less; so it proposes, and what it rules out is proved elsewhere.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from logiccheck.base.budget import Budget
from logiccheck.engine.sat import Circuit, Sat, Template, heaviest
from logiccheck.explain.asking import Asking


class OneMoment:
    """The conditions that `asking` was made with, by number."""

    def __init__(self, asking: Asking) -> None:
        aig, lits, met = asking.moment()
        self._template = Template(aig, aig.cone([*lits, met]))
        self._lits = tuple(self._template.lit(lit) for lit in lits)
        self._met = self._template.lit(met)
        self._sat = Sat()
        self._circuit = Circuit(self._sat, self._template)
        self._sat.add([self._circuit.lit(met)])
        self._asked = tuple(self._circuit.lit(lit) for lit in lits)

    def heaviest(self, weights: Mapping[int, int], apart: Iterable[Collection[int]], budget: Budget) -> frozenset[int]:
        """The heaviest set that one moment allows and that holds none of the sets `apart`. May raise `OutOfTime`."""
        clauses = [*self._template.clauses(), [self._met]]
        clauses += [[-self._lits[number] for number in each] for each in apart]
        by_lit: dict[int, int] = {}
        for number, weight in weights.items():
            by_lit[self._lits[number]] = by_lit.get(self._lits[number], 0) + weight
        found = heaviest(clauses, by_lit, budget)
        return frozenset(number for number in weights if found is not None and self._lits[number] in found)

    def apart(self, numbers: Collection[int]) -> frozenset[int] | None:
        """A part of these that cannot be together, of which nothing can be left out; None if one moment allows all."""
        kept = sorted(numbers)
        if self._allowed(kept):
            return None
        kept = self._core(kept)
        for number in tuple(kept):
            fewer = [each for each in kept if each != number]
            if number in kept and not self._allowed(fewer):
                kept = self._core(fewer)
        return frozenset(kept)

    def _allowed(self, numbers: Iterable[int]) -> bool:
        return self._sat.solve([self._asked[number] for number in numbers])

    def _core(self, numbers: list[int]) -> list[int]:
        core = self._sat.core()
        return [number for number in numbers if self._asked[number] in core]

    def close(self) -> None:
        self._sat.close()
