"""Can it happen without any coincidence: no world change together with another one, or with a timer that falls due.

The same cone is asked again with what is never to be as one more constraint on every moment after the first: first for
stories that are only so much longer as it takes to do one thing after the other, then for a proof, then for any.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.certify import Doubt
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.recheck import looked_at_again
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.shortest import Search
from logiccheck.engine.timing import Trace
from logiccheck.model.circuit.system import Constraint
from logiccheck.model.story import Answer, Story


def happens_apart(
    cone: Cone, story: Story, settles: bool, budget: Budget, doubt: Doubt = looked_at_again
) -> tuple[Answer, Trace | None]:
    """Whether what the story of this cone shows can happen without any coincidence, and how; `settles`: every moment
    does, and so a proof is one, which goes through `doubt`. May raise ProofRefused."""
    without = one_by_one(cone)
    search = Search(without, budget)
    surplus = sum(len(changed) + len(due) - 1 for _, changed, due in story.coincidences)
    try:
        trace = search.some(story.moments + surplus)
        if trace is None and settles:
            full = exact(without)
            found = Cegar(full).run(budget)
            if isinstance(found, TimedProof):
                doubt(full, (found,), budget)
                return Answer.NO, None
            trace = None if found is None else search.some()
    except OutOfTime:
        trace = None
    finally:
        search.close()
    return (Answer.OPEN if trace is None else Answer.YES), trace


def one_by_one(cone: Cone) -> Cone:
    """The same cone, with at most one change of the world at each moment after the first, and none when a timer falls
    due."""
    system, aig = cone.system, cone.aig
    bits = {bit.name: bit for bit in cone.bits}
    changed = []
    for name in cone.world:
        was = [system.before(bit) for bit in system.world.coded[name].bits]
        bits |= {bit.name: bit for bit in was}
        nows = system.world.coded[name].bits
        changed.append(aig.any_of(aig.differ(now, bit.now) for now, bit in zip(nows, was, strict=True)))
    falls_due = aig.any_of(aig.both(clock.run, clock.due) for clock in cone.clocks)
    pairs = [aig.both(a, b) for a, b in combinations(changed, 2)]
    together = aig.any_of([*pairs, aig.both(falls_due, aig.any_of(changed))])
    bits |= {bit.name: bit for bit in system.bits.values() if bit.now == system.first ^ 1}
    allowed = Constraint(aig.either(system.first, together ^ 1))
    without = replace(cone, bits=list(bits.values()), constraints=[*cone.constraints, allowed])
    without.arrange()
    return without
