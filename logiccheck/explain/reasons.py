"""The fewest facts that make a signal what it is, whatever all other facts are.

A set of facts is a reason when no situation that keeps them turns the signal. So a reason holds, of every situation
that turns it, at least one fact that is otherwise there: smallest sets that hit all such differences found so far are
tried, and each that is no reason brings a new difference (implicit hitting sets: E. Moreno-Centeno, R. Karp, "The
implicit hitting set approach", Operations Research 61(2), 2013).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from logiccheck.base.frozen import frozen
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.explain.facts import Fact, Function

MOST_TRIED = 3_000  # sets tried for one signal
MOST_REASONS = 200  # fewest reasons counted


@frozen
class Reason:
    """`facts` in the order in which the line asked about leads to them.

    `fewest`: proved to be so, else it is only that none can be left out. `others` as small as this one were found, and
    there are no more of them if `all_found`.
    """

    facts: tuple[Fact, ...]
    fewest: bool
    others: int
    all_found: bool


def reason(function: Function) -> Reason:
    """The fewest facts that force the value; of several sets, the one whose facts come first in the function.

    Empty where it cannot be otherwise. The facts as they are now have to give the value, as they do in all that is
    settled (else `forced`).
    """
    search = _Search(function)
    try:
        return search.answer()
    finally:
        search.close()


def forced(function: Function) -> Reason | None:
    """The same in a reaction that need not be settled: None where all facts together do not force the value."""
    search = _Search(function)
    try:
        return None if search.can_turn(range(len(function.facts))) else search.answer()
    finally:
        search.close()


@dataclass(slots=True)
class _Search:
    function: Function
    sat: Sat = field(default_factory=Sat)
    holds: list[int] = field(init=False)  # solver literals, by fact
    differences: list[frozenset[int]] = field(default_factory=list)  # numbers of facts
    tried: int = 0

    def __post_init__(self) -> None:
        f = self.function
        circuit = Circuit(self.sat, Template(f.aig, f.aig.cone([f.lit, f.possible, *f.holds])))
        self.sat.add([circuit.lit(f.possible)])
        self.sat.add([circuit.lit(f.lit ^ f.value)])
        self.holds = [circuit.lit(lit) for lit in f.holds]

    def close(self) -> None:
        self.sat.close()

    def can_turn(self, kept: Iterable[int]) -> bool:
        """Whether a situation that keeps these facts turns the signal."""
        return self.sat.solve([self.holds[number] for number in kept])

    def answer(self) -> Reason:
        found: list[tuple[int, ...]] = []
        for chosen in self._smallest():
            found.append(chosen)
            if len(found) == MOST_REASONS:
                break
        if not found:
            return self._reason(self._shrunk(), False, 0, False)
        return self._reason(min(found), True, len(found) - 1, len(found) < MOST_REASONS and self.tried < MOST_TRIED)

    def _reason(self, chosen: tuple[int, ...], fewest: bool, others: int, all_found: bool) -> Reason:
        facts = sorted((self.function.facts[number] for number in chosen), key=lambda fact: fact.root)
        return Reason(tuple(facts), fewest, others, all_found)

    def _smallest(self) -> Iterator[tuple[int, ...]]:
        """All reasons of the fewest facts."""
        for size in range(len(self.holds) + 1):
            found = False
            for chosen in self._hitting(frozenset(), frozenset(), size):
                found = True
                yield chosen
            if found or self.tried >= MOST_TRIED:
                return

    def _hitting(self, chosen: frozenset[int], barred: frozenset[int], left: int) -> Iterator[tuple[int, ...]]:
        """The reasons that hold all of `chosen`, none of `barred`, and at most `left` more; each once, no superset of
        another of them.
        """
        if self.tried >= MOST_TRIED:
            return
        missed = next((each for each in self.differences if not each & chosen), None)
        if missed is None:
            self.tried += 1
            missed = self._difference(chosen)
            if missed is None:
                yield tuple(sorted(chosen))
                return
            self.differences.append(missed)
        if left == 0:
            return
        for number in sorted(missed - barred):
            yield from self._hitting(chosen | {number}, barred, left - 1)
            barred |= {number}

    def _difference(self, chosen: frozenset[int]) -> frozenset[int] | None:
        """The facts that are otherwise in a situation that keeps `chosen` and turns the signal, as few as can be left
        so; None: there is no such situation.
        """
        if not self.can_turn(sorted(chosen)):
            return None
        kept = set(chosen)
        for number in range(len(self.holds)):
            if number not in kept and self.can_turn(sorted(kept | {number})):
                kept.add(number)
        return frozenset(range(len(self.holds))) - kept

    def _shrunk(self) -> tuple[int, ...]:
        """A reason of which no fact can be left out; the last ones are tried first."""
        kept = set(range(len(self.holds)))
        for number in reversed(range(len(self.holds))):
            if not self.can_turn(sorted(kept - {number})):
                kept.discard(number)
        return tuple(sorted(kept))
