"""A question in parts: the bad thing as one of several, each with what matters to it alone.

"Never a or b" is never a and never b; "never c and (a or b)" is never c and a, and never c and b. A part counts when
fewer timers matter to it than to the whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set
from functools import cache
from typing import TypeAlias

from logiccheck.engine.cone import Cone, Reach
from logiccheck.model.circuit.aig import FALSE, Aig, Lit, Node

MOST_PARTS = 60

Matters: TypeAlias = Callable[[Lit], Set[Node]]  # the timers that a literal depends on through any number of moments


def parts(cone: Cone) -> list[Cone]:
    """The cones of the parts, which together are the question of `cone`, those with the fewest timers first; none when
    it falls into no parts."""
    reach = Reach(cone.system)
    timers = {run >> 1 for run in (*(clock.run for clock in cone.clocks), *(watch.run for watch in cone.watches))}

    @cache
    def matters(lit: Lit) -> Set[Node]:
        return reach.nodes([lit]) & timers

    wrong = disjuncts(cone.aig, cone.bad, matters)
    if len(wrong) < 2:
        return []
    found = [narrowed(reach, cone, lit) for lit in wrong]
    return sorted(found, key=lambda part: len(part.clocks) + len(part.watches))


def disjuncts(aig: Aig, lit: Lit, matters: Matters) -> list[Lit]:
    """Literals, one of which is true exactly when this one is; each was split off because fewer timers matter to it, or
    to what was left."""
    waiting, found = [[lit]], list[list[Lit]]()
    while waiting:
        together = _flat(aig, waiting.pop())
        either = _best(aig, together, matters) if len(waiting) + len(found) + 1 < MOST_PARTS else None
        if either is None:
            found.append(together)
        else:
            waiting += _split(aig, together, either)
    wrong = dict.fromkeys(aig.all_of(sorted(set(lits))) for lits in found)
    return [each for each in wrong if each != FALSE]


def _flat(aig: Aig, lits: list[Lit]) -> list[Lit]:
    """The same conjunction of literals that are none themselves."""
    flat: dict[Lit, None] = {}
    waiting = list(lits)
    while waiting:
        lit = waiting.pop()
        pair = None if lit & 1 else aig.operands[lit >> 1]
        if pair is None:
            flat[lit] = None
        else:
            waiting += pair
    return list(flat)


def _split(aig: Aig, together: list[Lit], either: Lit) -> Iterator[list[Lit]]:
    """The two cases of a conjunction by one of its literals, which is a disjunction."""
    rest = [lit for lit in together if lit != either]
    pair = aig.operands[either >> 1]
    assert pair is not None
    yield from ([*rest, lit ^ 1] for lit in pair)


def _best(aig: Aig, together: list[Lit], matters: Matters) -> Lit | None:
    """The disjunction in a conjunction by which to split it so that the fewest timers matter; None where all go on to
    matter in both cases."""

    def timers(lits: list[Lit]) -> int:
        return len(set[Node]().union(*(matters(lit) for lit in lits)))

    whole, best, least = timers(together), None, (0, 0)
    for lit in together:
        if lit & 1 and aig.operands[lit >> 1] is not None:
            sizes = sorted(timers(lits) for lits in _split(aig, together, lit))
            if sizes[0] < whole and (best is None or (sizes[1], sizes[0]) < least):
                best, least = lit, (sizes[1], sizes[0])
    return best


def narrowed(reach: Reach, cone: Cone, bad: Lit) -> Cone:
    """What of a cone matters to a question of its own, with those of its constraints that touch that."""
    seen, chosen = reach.nodes([bad]), list[int]()
    touched = {k: reach.world(reach.nodes([c.lit])) for k, c in enumerate(cone.constraints)}
    while more := [k for k, world in touched.items() if k not in chosen and world & reach.world(seen)]:
        chosen += more
        reach.nodes([cone.constraints[k].lit for k in more], seen)
    world = reach.world(seen)
    part = Cone(
        cone.system,
        bad,
        [bit for bit in cone.bits if bit.now >> 1 in seen],
        [clock for clock in cone.clocks if clock.run >> 1 in seen],
        [watch for watch in cone.watches if watch.run >> 1 in seen],
        {name: nodes for name, nodes in cone.world.items() if name in world},
        [cone.constraints[k] for k in sorted(chosen)],
    )
    part.arrange()
    return part
