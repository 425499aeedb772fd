"""Which story is told among those with the fewest moments and the fewest world changes.

Those on the coarsest grid of times that any of them is possible on; of these the one that ends earliest, and whose
moments before that are, from the first on, as early as they can be. Then, from time 0 on and name by name in the
alphabet: the world at time 0 with the first position (the lowest interval) of each name that is possible, at each
moment the change of the first name that can change, to its first position; at last, timer by timer in the alphabet, no
falling due that need not be. Nothing is left open then: the story depends neither on the solver nor on the order of
the file. Other names can only change what was left to the alphabet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.engine.grid import Grid, units
from logiccheck.engine.timing import Edge, Fact, Trace
from logiccheck.engine.unroll import Unrolling
from logiccheck.model.circuit.aig import FALSE


@frozen
class _Ending:
    """What the last moment is like (`lits`, true in the solver) and the earliest times (in units of `grid`) of some
    such trace; `asked`: bounds on its times so far."""

    lits: tuple[int, ...]
    grid: Grid
    trace: Trace
    times: list[int]
    asked: tuple[Edge, ...] = ()

    def better(self, u: Unrolling, k: int, bound: int) -> _Ending | None:
        """Another, with moment k by that time."""
        asked = Edge(0, k, bound, Fact.ASKED)
        found = u.possible(self.lits, [*self.asked, asked], self.grid)
        return None if found is None else replace(self, trace=found[0], times=found[1])

    def held(self, k: int) -> _Ending:
        """The same, and moment k stays where it is, or earlier."""
        return replace(self, asked=(*self.asked, Edge(0, k, self.times[k], Fact.ASKED)))


def first_of_equals(u: Unrolling) -> Iterator[Trace]:
    """The story to tell among those that the unrolling still admits comes last; before it, each that is nearer to it
    than the one before. May raise OutOfTime."""
    best: _Ending | None = None
    for best in _earliest(u):
        yield best.trace
    assert best is not None
    yield from _first_in_the_alphabet(u, best)


def _earliest(u: Unrolling) -> Iterator[_Ending]:
    """Nearer and nearer to the earliest one on the coarsest grid, which comes last, with its times held."""
    last = len(u.moments) - 1
    best: _Ending | None = None
    for ending in _on_the_coarsest_grid(u):
        better: _Ending | None = ending
        if best is not None and ending.times[last] >= best.times[last]:  # "just after" a time is later than it
            better = ending.better(u, last, best.times[last] - 1)
        while better is not None:
            best = better
            yield best
            better = _earlier(u, best, last, last - bool(best.grid.late))
    assert best is not None
    best = best.held(last)
    for k in range(1, last):
        better = best
        while better is not None:
            best = better
            better = _earlier(u, best, k, best.times[k - 1] + 1)
        best = best.held(k)
        yield best
    yield best


def _earlier(u: Unrolling, ending: _Ending, k: int, least: int) -> _Ending | None:
    """One in which moment k is earlier, which cannot be before `least`."""
    return ending.better(u, k, ending.times[k] - 1) if ending.times[k] > least else None


def _on_the_coarsest_grid(u: Unrolling) -> list[_Ending]:
    """One ending of each kind that is possible there."""
    for unit in units(len(u.moments)):
        found = []
        for lits, late in _kinds(u):
            grid = Grid(unit, late)
            answer = u.possible(lits, grid=grid)
            if answer is not None:
                found.append(_Ending(lits, grid, *answer))
        if found:
            return found
    raise AssertionError("there is always a finer grid")


def _kinds(u: Unrolling) -> list[tuple[tuple[int, ...], str]]:
    """The last moment is one at which it goes wrong, or just after the time (of which watch) by which something was
    due."""
    if u.cone.overdue == FALSE:
        return [((), "")]
    overdue = u.moments[-1].lit(u.cone.overdue)
    return [((-overdue,), ""), ((overdue,), u.cone.late)]


def _first_in_the_alphabet(u: Unrolling, best: _Ending) -> Iterator[Trace]:
    """Among those with the times of `best`, which are held."""
    trace, fixed = best.trace, list(best.lits)

    def asked(lits: list[int]) -> bool:
        nonlocal trace
        found = u.possible([*fixed, *lits], best.asked, best.grid)
        if found is not None:
            trace = found[0]
        return found is not None

    for k in range(len(u.moments)):
        for name in sorted(u.cone.world):
            for index in _preferred(u, trace, k, name):
                lits = _value(u, k, name, index)
                if _index(u, trace, k, name) == index or asked(lits):
                    fixed += lits
                    break
    for k, moment in enumerate(u.moments):
        for clock in sorted(u.cone.clocks, key=lambda clock: clock.key):
            due = moment.lit(clock.due)
            fixed.append(-due if not trace[k][clock.due >> 1] or asked([-due]) else due)
    yield trace


def _index(u: Unrolling, trace: Trace, k: int, name: str) -> int:
    """The index of the value that a name has at a moment of a trace."""
    return sum(1 << i for i, node in enumerate(u.cone.world[name]) if trace[k][node])


def _value(u: Unrolling, k: int, name: str, index: int) -> list[int]:
    """What it takes that a name has the value with this index at a moment."""
    lits = (u.moments[k].lit(2 * node) for node in u.cone.world[name])
    return [lit if index >> i & 1 else -lit for i, lit in enumerate(lits)]


def _preferred(u: Unrolling, trace: Trace, k: int, name: str) -> Iterator[int]:
    """The values in the order in which they are wanted: another than before in front, the one from before last."""
    legal = u.cone.system.world.coded[name].legal
    if k == 0:
        yield from legal
        return
    before = _index(u, trace, k - 1, name)
    yield from (index for index in legal if index != before)
    yield before
