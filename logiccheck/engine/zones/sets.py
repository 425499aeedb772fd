"""Sets of states as binary decision diagrams: the one door to the library, with a bound on what it may use.

A set is a function of numbered variables, the topmost first; `&`, `|`, `~` are meet, join and complement, and two sets
are the same exactly when they are equal.
References: R. Bryant, "Graph-based algorithms for Boolean function manipulation", IEEE Trans. Computers C-35(8), 1986;
J. Burch, E. Clarke, D. Long, "Symbolic model checking with partitioned transition relations", VLSI 1991 (a conjunction
and a projection in one).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from oxidd.bcdd import BCDDFunction

States: TypeAlias = "BCDDFunction"

MOST_NODES = 1_000_000  # some 30 MB when all are used
MOST_RESULTS = 1 << 17  # of operations, remembered; the table is made whole at once, so that a small one begins sooner


class TooLarge(Exception):
    """An operation on sets would need more nodes than there may be."""


@contextmanager
def bounded() -> Iterator[None]:
    """Inside, sets that grow too large raise `TooLarge`."""
    from oxidd.util import DDMemoryError  # most questions need no sets, and no library is loaded for them

    try:
        yield
    except DDMemoryError as error:
        raise TooLarge from error


class Sets:
    """All sets over `count` variables."""

    def __init__(self, count: int) -> None:
        from oxidd.bcdd import BCDDManager
        from oxidd.util import BooleanOperator

        self._and = BooleanOperator.AND
        self._manager = BCDDManager(MOST_NODES, MOST_RESULTS, 1)
        self._manager.add_vars(count)
        self.empty: States = self._manager.false()
        self.all: States = self._manager.true()
        self._groups: dict[frozenset[int], States] = {}

    def variable(self, number: int) -> States:
        """The states in which this variable is true."""
        return self._manager.var(number)

    def _group(self, numbers: frozenset[int]) -> States:
        if numbers not in self._groups:
            group = self.all
            for number in sorted(numbers, reverse=True):
                group &= self.variable(number)
            self._groups[numbers] = group
        return self._groups[numbers]

    def forget(self, states: States, numbers: Iterable[int]) -> States:
        """The states that differ from some of these at most in these variables."""
        group = frozenset(numbers)
        return states.exists(self._group(group)) if group else states

    def meet_and_forget(self, states: States, others: States, numbers: Iterable[int]) -> States:
        """`forget` of what both hold."""
        group = frozenset(numbers)
        if not group:
            return states & others
        return states.apply_exists(self._and, others, self._group(group))

    def renaming(self, to: Mapping[int, int]) -> Renaming:
        return Renaming(self, {number: self.variable(other) for number, other in to.items()})

    def fixing(self, values: Mapping[int, bool]) -> Renaming:
        return Renaming(self, {number: self.all if value else self.empty for number, value in values.items()})

    def some(self, states: States) -> dict[int, bool]:
        """The variables that matter in one of the states; the others may be either."""
        found = states.pick_cube()
        assert found is not None
        return {number: value for number, value in enumerate(found) if value is not None}

    def support(self, states: States) -> set[int]:
        """The variables that the set depends on."""
        return {number for _, number, _, _ in walk(states)}


class Renaming:
    """Puts other sets in the place of variables, all at once."""

    def __init__(self, sets: Sets, to: Mapping[int, States]) -> None:
        self._put = sets.all.make_substitution(to.items()) if to else None

    def __call__(self, states: States) -> States:
        return states.substitute(self._put) if self._put is not None else states


def walk(states: States) -> Iterable[tuple[States, int, States, States]]:
    """Every part of a diagram that asks for a variable, what is asked for first: the part, the variable, and the parts
    for true and for false; parts come after those they lead to."""
    done: set[States] = set()
    waiting = [(states, False)]
    while waiting:
        part, ready = waiting.pop()
        number, ways = part.node_var(), part.cofactors()
        if part in done or number is None or ways is None:
            continue
        if ready:
            done.add(part)
            yield part, number, *ways
        else:
            waiting.append((part, True))
            waiting += [(way, False) for way in ways]
