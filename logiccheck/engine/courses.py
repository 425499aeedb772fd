"""Courses of hands past a moment at which something is demanded: moments just before it, and then the demanded world.

Time is dense: just before a moment there is room for any number of moments in which nothing falls due. A switch that is
passed one by one, or a number that does not jump, can so be brought to any of its values in time, and what allows a
change can be made so before it, if each world on the way meets what is given. A course is composed of circuits of one
moment each; it says whether one fixed plan of hands is lawful.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit, Node
from logiccheck.model.circuit.system import Clock, Watch
from logiccheck.model.circuit.worldcode import Coded

Move: TypeAlias = tuple[str, int]  # a variable of the world, and the index of the value that it is moved to


@frozen
class Plan:
    """What hands move in each of its moments, in order; the last is the demanding moment, there is always one.

    A variable that changes step by step moves one index towards its target, or stays there; others are there at once.
    """

    moments: tuple[tuple[Move, ...], ...]


STAY = Plan(((),))


class Course:
    """The lawfulness of plans at a moment of `cone`, whose constraints do not bind it; `meets` is what is given,
    `before` maps the bits of the world to what they were in the moment before, and `stepping` change step by step."""

    def __init__(self, cone: Cone, meets: Lit, before: Mapping[Node, Lit], stepping: frozenset[str]) -> None:
        self.cone, self.meets, self.before, self.stepping = cone, meets, dict(before), stepping
        self.aig: Aig = cone.aig
        self.timers: list[Clock | Watch] = [*cone.clocks, *cone.watches]

    def lawful(self, plan: Plan) -> Lit:
        """Whether every moment of the plan meets what is given, as a literal of the demanding moment."""
        aig = self.aig
        world, state, lasting = dict(self.before), dict[Node, Lit](), [TRUE] * len(self.timers)
        following = [bit.next for bit in self.cone.bits]
        goes_on = [aig.both(t.run_next, t.start ^ 1) for t in self.timers]
        lawful = TRUE
        for moves in plan.moments[:-1]:
            world |= self._moved(moves, world)
            values = {**state, **world, **self._just_before(lasting)}
            made = substitute(aig, [self.meets, *following, *goes_on], values)
            lawful = aig.both(lawful, made[0])
            state = {bit.now >> 1: made[1 + i] for i, bit in enumerate(self.cone.bits)}
            lasting = [aig.both(a, b) for a, b in zip(lasting, made[1 + len(following) :], strict=True)]
        world |= self._moved(plan.moments[-1], world)
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
        """At the moment itself a run shows what it does, if none of the moments before ended it or began it anew."""
        shown: dict[Node, Lit] = {}
        for timer, lasts in zip(self.timers, lasting, strict=True):
            inputs = (timer.due,) if isinstance(timer, Clock) else (timer.ge, timer.gt)
            shown |= {lit >> 1: self.aig.both(lit, lasts) for lit in inputs}
        return shown

    def _moved(self, moves: Sequence[Move], world: Mapping[Node, Lit]) -> dict[Node, Lit]:
        """The bits of what is moved, after it."""
        moved: dict[Node, Lit] = {}
        for name, target in moves:
            coded = self.cone.system.world.coded[name]
            moved |= self._towards(coded, target, world) if name in self.stepping else _at(coded, target)
        return moved

    def _towards(self, coded: Coded, target: int, world: Mapping[Node, Lit]) -> dict[Node, Lit]:
        """The bits of a variable moved by one index towards the target, or left there."""
        aig = self.aig
        codes = substitute(aig, list(coded.codes), world)
        moved = []
        for index in range(len(codes)):
            arrivals = [codes[index]] if index == target else []
            if 0 < index <= target:
                arrivals.append(codes[index - 1])
            if target <= index < len(codes) - 1:
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
