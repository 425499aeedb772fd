"""Courses of hands past a moment at which something is demanded: step by step just before it, and then the demanded
world.

Time is dense: just before a moment there is room for any number of moments in which nothing falls due. A switch that is
passed one by one, or a number that does not jump, can so be brought to any of its values in time, if each value on the
way meets what is given. A course is composed of circuits of one moment each; it says whether one fixed plan of hands is
lawful, so that a situation in which no plan is may still have a way out, but one in which some plan is has one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from logiccheck.engine.cone import Cone
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit, Node
from logiccheck.model.circuit.system import Clock, Watch
from logiccheck.model.circuit.worldcode import Coded


@dataclass(frozen=True, slots=True)
class Plan:
    """Bring each of `stepping` to its index step by step, the last step before the moment or (`late`) at it, and set
    each of `jumping` at the moment itself."""

    stepping: tuple[tuple[Coded, int], ...]
    jumping: tuple[tuple[Coded, int], ...]
    late: bool = False

    @property
    def steps(self) -> int:
        """Moments before the demanding one that are enough from anywhere."""
        return max((len(coded.legal) - 1 for coded, _ in self.stepping), default=0)


class Course:
    """The lawfulness of plans at a moment of `cone`, whose constraints do not bind it; `meets` is what is given, and
    `before` maps the bits of the world to what they were in the moment before."""

    def __init__(self, cone: Cone, meets: Lit, before: Mapping[Node, Lit]) -> None:
        self.cone, self.meets, self.before = cone, meets, dict(before)
        self.aig: Aig = cone.aig
        self.timers: list[Clock | Watch] = [*cone.clocks, *cone.watches]

    def lawful(self, plan: Plan) -> Lit:
        """Whether every moment of the plan meets what is given, as a literal of the demanding moment."""
        aig = self.aig
        world, state, lasting = dict(self.before), dict[Node, Lit](), [TRUE] * len(self.timers)
        lawful = TRUE
        for _ in range(plan.steps):
            for coded, target in plan.stepping:
                world |= self._towards(coded, target, world, short=plan.late)
            values = {**state, **world, **self._just_before(lasting)}
            following = [bit.next for bit in self.cone.bits]
            goes_on = [aig.both(t.run_next, t.start ^ 1) for t in self.timers]
            made = substitute(aig, [self.meets, *following, *goes_on], values)
            lawful = aig.both(lawful, made[0])
            state = {bit.now >> 1: made[1 + i] for i, bit in enumerate(self.cone.bits)}
            lasting = [aig.both(a, b) for a, b in zip(lasting, made[1 + len(following) :], strict=True)]
        for coded, target in plan.stepping:
            world |= self._towards(coded, target, world, short=False)
        for coded, index in plan.jumping:
            world |= _at(coded, index)
        return aig.both(lawful, substitute(aig, [self.meets], {**state, **world, **self._now(lasting)})[0])

    def _just_before(self, lasting: Sequence[Lit]) -> dict[Node, Lit]:
        """Nothing falls due, and a run that goes on shows what is more than reached at the moment itself."""
        shown: dict[Node, Lit] = {}
        for timer, lasts in zip(self.timers, lasting, strict=True):
            if isinstance(timer, Clock):
                shown[timer.due >> 1] = FALSE
            else:
                more = self.aig.both(timer.gt, lasts)
                shown |= {timer.ge >> 1: more, timer.gt >> 1: more}
        return shown

    def _now(self, lasting: Sequence[Lit]) -> dict[Node, Lit]:
        """At the moment itself a run shows what it does, if none of the steps before ended it or began it anew."""
        shown: dict[Node, Lit] = {}
        for timer, lasts in zip(self.timers, lasting, strict=True):
            inputs = (timer.due,) if isinstance(timer, Clock) else (timer.ge, timer.gt)
            shown |= {lit >> 1: self.aig.both(lit, lasts) for lit in inputs}
        return shown

    def _towards(self, coded: Coded, target: int, world: Mapping[Node, Lit], short: bool) -> dict[Node, Lit]:
        """The bits of a variable moved by one index towards the target, or left there (or one step `short` of it)."""
        aig = self.aig
        codes = substitute(aig, list(coded.codes), world)
        moved = []
        for index in range(len(codes)):
            stays = index == target or (short and abs(index - target) == 1)
            arrivals = [codes[index]] if stays else []
            if 0 < index <= target - short:
                arrivals.append(codes[index - 1])
            if target + short <= index < len(codes) - 1:
                arrivals.append(codes[index + 1])
            moved.append(aig.any_of(arrivals))
        return {
            bit >> 1: aig.any_of(lit for index, lit in enumerate(moved) if index >> i & 1)
            for i, bit in enumerate(coded.bits)
        }


def _at(coded: Coded, index: int) -> dict[Node, Lit]:
    """The bits of a variable that has the value with this index."""
    return {bit >> 1: TRUE if index >> i & 1 else FALSE for i, bit in enumerate(coded.bits)}


def substitute(aig: Aig, lits: Sequence[Lit], values: Mapping[Node, Lit]) -> list[Lit]:
    """The literals with inputs replaced by other literals."""
    made: dict[Node, Lit] = {0: FALSE, **values}
    for node in aig.cone(lits):
        if node in made:
            continue
        pair = aig.operands[node]
        if pair is None:
            made[node] = 2 * node
        else:
            a, b = pair
            made[node] = aig.both(made[a >> 1] ^ (a & 1), made[b >> 1] ^ (b & 1))
    return [made[lit >> 1] ^ (lit & 1) for lit in lits]
