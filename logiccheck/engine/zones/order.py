"""An order of variables in which those that depend on each other stand near each other.

Reference: F. Aloul, I. Markov, K. Sakallah, "FORCE: a fast and easy-to-implement variable-ordering heuristic", GLSVLSI
2003.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from typing import TypeAlias, TypeVar

Thing = TypeVar("Thing")
Group: TypeAlias = Collection[Thing]

ROUNDS = 60


def arranged(things: Sequence[Thing], groups: Sequence[Group[Thing]]) -> list[Thing]:
    """The things in an order in which the members of each group stand near each other; the same every time."""
    groups = [group for group in groups if group]
    within: dict[Thing, list[int]] = defaultdict(list)
    for number, group in enumerate(groups):
        for thing in group:
            within[thing].append(number)
    order = best = list(things)
    least = _length(order, groups)
    for _ in range(ROUNDS):
        place = {thing: float(k) for k, thing in enumerate(order)}
        middle = [sum(place[thing] for thing in group) / len(group) for group in groups]
        pulled = {t: sum(middle[n] for n in within[t]) / len(within[t]) if within[t] else place[t] for t in order}
        order = sorted(order, key=pulled.__getitem__)
        length = _length(order, groups)
        if length < least:
            least, best = length, order
    return list(best)


def _length(order: Sequence[Thing], groups: Sequence[Group[Thing]]) -> int:
    """How far apart the members of groups stand, all added up."""
    place = {thing: k for k, thing in enumerate(order)}
    spans = ([place[thing] for thing in group] for group in groups)
    return sum(max(span) - min(span) for span in spans)
