"""The last ties between stories: among those that are equally short, equally quiet and equally early, one is told.

From time 0 on, and name by name in the alphabet: first the world at time 0 with the first position (the lowest
interval) of each name that is possible, then at each moment the change of the first name that can change, to its first
position. The story does not depend on the solver, nor on the order of the file.
"""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.engine.timing import Edge, Fact, Trace
from logiccheck.engine.unroll import Unrolling


def first_of_equals(u: Unrolling, trace: Trace, end: int) -> Trace:
    """The story to tell among those that the unrolling still admits and that end by `end` (scaled as in `timing`);
    `trace` is one of them. May raise OutOfTime."""
    asked = [Edge(0, len(u.moments) - 1, end, Fact.ASKED)]
    fixed: list[int] = []
    for k in range(len(u.moments)):
        for name in sorted(u.cone.world):
            for index in _preferred(u, trace, k, name):
                lits = _value(u, k, name, index)
                if _index(u, trace, k, name) != index:
                    better = u.possible([*fixed, *lits], asked)
                    if better is None:
                        continue
                    trace = better[0]
                fixed += lits
                break
    return trace


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
