"""The heaviest of all situations that can really be: the greatest sum of weights of what is so at once.

A set of conditions is proposed that weighs most and holds none of the sets already proved never to be together; then it
is asked whether it can be. First what one moment rules out is proved, which brings the upper bound near; then only sets
are proposed that one moment allows. Of a set of thirty conditions it may take long to say that they are never so at
once; of the two or three among them that never are it is soon said. So pairs and triples that no known situation has
are asked first. What remains to be shown then is that nothing heavier can be: each heavier set holds some that cannot
be together, and each of these is proved. So what is said to be the most rests on a story and on proofs, and not on what
proposes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import islice
from math import lcm

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.moment import OneMoment
from logiccheck.copper.draws.together import Happened, Together
from logiccheck.engine.sat import heaviest
from logiccheck.explain.asking import Blocked
from logiccheck.model.story import Story

NOTHING = Fraction(0)
MOST_BLOCKED = 20
GLANCE = 0.02  # of the time for one question
SHORTLY = 0.1
LONGER = 0.3
PAIRS, THREE = 2, 3  # conditions
MOST_SETS = 5_000  # that are looked at to find those to ask first
FEW = 12  # sets that are asked one by one before all is asked at once
TRIPLES_SHARE = 0.4  # of what is left, for sets of three
BOUND_SHARE = 0.25  # of the time, to rule out what one moment does
BOUND_SECONDS = 1.0  # to say at the end how much it can be at most


@frozen
class Worst:
    """`least` is reached: at the end of `story` the conditions `so` are so, and weigh that much; None and empty where
    nothing was found. `most`: more there never is. They are the same where the search came to its end."""

    least: Fraction
    most: Fraction
    so: frozenset[int]
    story: Story | None

    @property
    def exact(self) -> bool:
        return self.least == self.most


@dataclass(slots=True)
class Search:
    """For the greatest sum of the weights, each above 0, of conditions that are so at once. What is found out is kept
    in `together`, for other searches, too."""

    together: Together
    moment: OneMoment
    weights: Mapping[int, Fraction]
    budget: Budget
    scale: int = field(init=False)

    def __post_init__(self) -> None:
        self.scale = lcm(1, *(weight.denominator for weight in self.weights.values()))

    def run(self) -> None:
        """Until nothing heavier can be, or the time is over. May raise KeyboardInterrupt, or BugMet."""
        for step in (self._lower, self._climb, self._close):
            try:
                step()
            except OutOfTime:  # of the optimiser
                continue

    def _lower(self) -> None:
        """Rules out what one moment does: each proof of that is short, and the upper bound is near from then on."""
        budget = self.budget.part(BOUND_SHARE)
        while budget.left and self._goes_on():
            part = self.moment.apart(self._any(self._apart(), budget))
            if part is None or self.together.ever(part):
                return

    def _climb(self) -> None:
        while self._goes_on():
            proposed = self.moment.heaviest(self._whole(), self._apart(), self.budget)
            if self._weight(proposed) <= self._best():
                return
            self._try(proposed)

    def _close(self) -> None:
        while self._goes_on():
            proposed = self._any(self._apart(), self.budget)
            if self._weight(proposed) <= self._best():
                return
            part = self.moment.apart(proposed)
            if part is None or self.together.ever(part):
                self._try(proposed)

    def _goes_on(self) -> bool:
        """There is time; and where something stands in the way of all proofs, a few stories are enough."""
        blocked = sum(isinstance(each, Blocked) for each in self.together.left.values())
        return bool(self.budget.left) and blocked < MOST_BLOCKED

    def _try(self, proposed: frozenset[int]) -> None:
        """Asks for all of it only where that is soon decided, and else for few conditions first: they are decided
        sooner, and two or three that can never be so at once keep much from being proposed again."""
        ever, by_weight = self.together.ever, sorted(proposed, key=lambda number: (-self.weights[number], number))
        if ever(proposed, GLANCE) or self._some_apart(by_weight, PAIRS, self.budget):
            return
        few = [*islice(self.together.unknown(by_weight, THREE), FEW)]
        if len(few) == FEW and ever(proposed, SHORTLY) is not None:
            return
        if self._some_apart(by_weight, THREE, self.budget.part(TRIPLES_SHARE)) or ever(proposed, LONGER) is not None:
            return
        if any(ever(few) is False for few in self.together.too_hard(proposed, THREE) if self._goes_on()):
            return
        if self._goes_on() and self.together.fewest(by_weight, SHORTLY) is None:
            ever(proposed)

    def _some_apart(self, numbers: Sequence[int], size: int, budget: Budget) -> bool:
        """Whether at most so many of these are found that are never so at once."""
        unknown = dict.fromkeys(islice(self.together.unknown(numbers, size), MOST_SETS))
        for few in sorted(unknown, key=self.together.nearly):
            if self.together.known(few) is None and self.together.ever(few, SHORTLY) is False:
                return True
            if not budget.left:
                break
        return False

    # ------------------------------------------------------------------------------------------------ proposals

    def _apart(self) -> list[frozenset[int]]:
        """What is not proposed again: it can never be, or nobody knows."""
        return [*self.together.never, *self.together.left]

    def _any(self, apart: Iterable[Collection[int]], budget: Budget) -> frozenset[int]:
        """The heaviest set that holds none of the sets `apart`. May raise `OutOfTime`."""
        mine = [each for each in apart if self.weights.keys() >= set(each)]
        clauses = [[-1 - number for number in each] for each in mine]
        found = heaviest(clauses, {number + 1: weight for number, weight in self._whole().items()}, budget)
        return frozenset(lit - 1 for lit in found or ())

    def _whole(self) -> dict[int, int]:
        return {number: int(weight * self.scale) for number, weight in self.weights.items()}

    # --------------------------------------------------------------------------------------------------- answers

    def _weight(self, numbers: Iterable[int]) -> Fraction:
        return sum((self.weights[number] for number in numbers if number in self.weights), NOTHING)

    def _heaviest(self) -> Happened | None:
        return max(self.together.happened, key=lambda each: self._weight(each.so), default=None)

    def _best(self) -> Fraction:
        best = self._heaviest()
        return self._weight(best.so) if best is not None else NOTHING

    def tell(self) -> None:
        """Looks for the shortest story of what is heaviest so far. May raise KeyboardInterrupt, or BugMet."""
        best = self._heaviest()
        if best is not None:
            self.together.story(self._mine(best))

    def found(self) -> Worst:
        """What is known so far."""
        best, most = self._heaviest(), self._most()
        if best is None:
            return Worst(NOTHING, most, frozenset(), None)
        so = self._mine(best)
        return Worst(self._weight(so), most, so, self.together.told.get(so, best.story))

    def _most(self) -> Fraction:
        try:
            return self._weight(self._any(self.together.never, Budget(BOUND_SECONDS)))
        except (OutOfTime, MemoryError):
            return sum(self.weights.values(), NOTHING)

    def _mine(self, happened: Happened) -> frozenset[int]:
        return frozenset(number for number in happened.so if number in self.weights)
