"""The heaviest of all situations that can really be: the greatest sum of weights of what is so at once.

A set of conditions is proposed that weighs most and holds none of the sets already proved never to be together; then it
is asked whether it can be. First only sets are proposed that one moment allows, which is near to what can be. What
remains to be shown then is that nothing heavier can be: each heavier set holds some that cannot be together, and each
of these is proved. So what is said to be the most rests on a story and on proofs, and not on what proposes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.moment import OneMoment
from logiccheck.copper.draws.together import Happened, Together
from logiccheck.engine.sat import heaviest
from logiccheck.explain.asking import Blocked
from logiccheck.model.story import Story

NOTHING = Fraction(0)
MOST_BLOCKED = 20
SHORTLY = 0.1  # of the time for one question


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
        while self._goes_on():
            proposed = self._realistic()
            if self._weight(proposed) <= self._best():
                break
            self._try(proposed)
        while self._goes_on():
            proposed = self._any(self._apart())
            if self._weight(proposed) <= self._best():
                break
            self._rule_out(proposed)

    def _goes_on(self) -> bool:
        """There is time; and where something stands in the way of all proofs, a few stories are enough."""
        blocked = sum(isinstance(each, Blocked) for each in self.together.left.values())
        return bool(self.budget.left) and blocked < MOST_BLOCKED

    def _try(self, proposed: frozenset[int]) -> None:
        """Asks at first shortly: of many conditions a few that can never be so at once are often found sooner."""
        if self.together.ever(proposed, SHORTLY):
            return
        by_weight = sorted(proposed, key=lambda number: (-self.weights[number], number))
        if self.together.fewest(by_weight, SHORTLY) is None:
            self.together.ever(proposed)

    def _rule_out(self, proposed: frozenset[int]) -> None:
        part = self.moment.apart(proposed)
        if part is None or self.together.ever(part):
            self._try(proposed)

    # ------------------------------------------------------------------------------------------------ proposals

    def _apart(self) -> list[frozenset[int]]:
        """What is not proposed again: it can never be, or nobody knows."""
        return [*self.together.never, *self.together.left]

    def _realistic(self) -> frozenset[int]:
        return self.moment.heaviest(self._whole(), self._apart())

    def _any(self, apart: Iterable[Collection[int]]) -> frozenset[int]:
        mine = [each for each in apart if self.weights.keys() >= set(each)]
        clauses = [[-1 - number for number in each] for each in mine]
        found = heaviest(clauses, {number + 1: weight for number, weight in self._whole().items()})
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
        best, most = self._heaviest(), self._weight(self._any(self.together.never))
        if best is None:
            return Worst(NOTHING, most, frozenset(), None)
        so = self._mine(best)
        return Worst(self._weight(so), most, so, self.together.told.get(so, best.story))

    def _mine(self, happened: Happened) -> frozenset[int]:
        return frozenset(number for number in happened.so if number in self.weights)
