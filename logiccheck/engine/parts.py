"""A question in parts: the bad thing as one of several, each with what matters to it alone.

"Never a or b" is never a and never b. Each part looks at less than the whole, and one of them may be hard for another
reason than the next.
"""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.engine.cone import Cone, Reach
from logiccheck.model.circuit.aig import FALSE, Aig, Lit

MOST_PARTS = 40


def parts(cone: Cone, deep: bool) -> Iterator[Cone]:
    """The cones of the parts, which together are the question of `cone`; `deep`: what is wrong only together with one
    of several things is taken apart, too. None when there is but one part."""
    wrong = disjuncts(cone.aig, cone.bad, deep)
    if len(wrong) > 1:
        reach = Reach(cone.system)
        yield from (narrowed(reach, cone, lit) for lit in wrong)


def disjuncts(aig: Aig, lit: Lit, deep: bool) -> list[Lit]:
    """Literals, one of which is true exactly when this one is; about MOST_PARTS at most."""
    together: list[list[Lit]] = [[lit]]
    at = 0
    while at < len(together):
        lits = together[at]
        both = next((x for x in lits if deep and not x & 1 and aig.operands[x >> 1]), None)
        either = next((x for x in lits if x & 1 and aig.operands[x >> 1]), None)
        if both is not None:
            together[at] = [x for x in lits if x != both] + list(_operands(aig, both))
        elif either is not None and (deep or len(lits) == 1) and len(together) < MOST_PARTS:
            rest = [x for x in lits if x != either]
            together[at : at + 1] = [[*rest, x ^ 1] for x in _operands(aig, either)]
        else:
            at += 1
    wrong = dict.fromkeys(aig.all_of(sorted(set(lits))) for lits in together)
    return [lit for lit in wrong if lit != FALSE]


def _operands(aig: Aig, lit: Lit) -> tuple[Lit, Lit]:
    pair = aig.operands[lit >> 1]
    assert pair is not None
    return pair


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
