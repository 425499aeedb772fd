"""Finds a way on at one moment that was reached: moments of hands just before it, and a world for it, that meet what is
given.

Everything before the moment is known, so one small question of satisfiability for each number of moments decides it.
Of the ways of the fewest moments one is taken in which no thing moves that could stay.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.courses import Course, Plan
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.system import Clock

SPARE_MOMENTS = 3  # beside those that things which change step by step need for all their steps
MOST_MOMENTS = 40


def ways_on(course: Course, cone: Cone, trace: Trace, budget: Budget) -> list[Plan]:
    """Plans that are lawful at the last moment of a trace of `cone`, with what falls due there; none if there is none.
    The world of that moment in the trace is passed over. May raise OutOfTime.

    One moves as little as can be, which helps where things may not be moved; one moves everything to where it is in
    this way, which helps where only some worlds are lawful at all.
    """
    search = _Search(course, _stored(cone, trace), trace[-1], budget)
    try:
        worlds = search.run()
    finally:
        search.sat.close()
    if worlds is None:
        return []
    moving = sorted(name for name in worlds[0] if any(world[name] != worlds[0][name] for world in worlds))
    found = []
    for names in (moving, sorted(worlds[0])):
        plan = _as_found(names, worlds)
        wider = _from_anywhere(course, plan)
        found.append(wider if holds_last(cone, trace, course.lawful(wider)) else plan)
    if not all(holds_last(cone, trace, course.lawful(plan)) for plan in found):
        raise AssertionError("a way that was found is no way")
    return list(dict.fromkeys(found))


def _stored(cone: Cone, trace: Trace) -> dict[Node, bool]:
    """What is stored before the last moment of a trace."""
    stored = {bit.now >> 1: False for bit in cone.bits}
    for inputs in trace[:-1]:
        values = cone.aig.evaluate([bit.next for bit in cone.bits], {**stored, **inputs}, cone.order)
        stored = {bit.now >> 1: value for bit, value in zip(cone.bits, values, strict=True)}
    return stored


class _Search:
    """Ways of one moment, of two, ... in one solver; all but the last moment of a way are moments just before it."""

    def __init__(self, course: Course, stored: Mapping[Node, bool], shown: Mapping[Node, bool], budget: Budget) -> None:
        self.course, self.cone, self.shown, self.budget = course, course.cone, shown, budget
        self.sat = Sat("cadical153")
        self.template = Template(self.cone.aig, self.cone.order)
        self.coded = [self.cone.system.world.coded[name] for name in self.cone.world]
        bits = [bit for coded in self.coded for bit in coded.bits]
        was = {bit >> 1: course.before[bit >> 1] for bit in bits}
        self.start = {node: self._constant(stored[lit >> 1] ^ bool(lit & 1)) for node, lit in was.items()}
        self.state = {bit.now >> 1: self._constant(stored[bit.now >> 1]) for bit in self.cone.bits}
        self.lasting = [self.sat.true] * len(course.timers)
        self.moments: list[Circuit] = []

    def run(self) -> list[dict[str, int]] | None:
        """The worlds of a way, moment by moment; first, what the world was before."""
        steps = sum(len(coded.legal) - 1 for coded in self.coded if coded.variable.name in self.course.stepping)
        for _ in range(min(steps + SPARE_MOMENTS, MOST_MOMENTS)):
            self.budget.check()
            last = Circuit(self.sat, self.template, {**self.state, **self._now()})
            if self.sat.solve(self._bound(last)):
                return self._fewest_moves([*self.moments, last])
            moment = Circuit(self.sat, self.template, {**self.state, **self._just_before()})
            for lit in self._bound(moment):
                self.sat.add([lit])
            if not self.sat.solve():
                return None
            self._goes_on(moment)
        return None

    def _goes_on(self, moment: Circuit) -> None:
        self.moments.append(moment)
        self.state = {bit.now >> 1: moment.lit(bit.next) for bit in self.cone.bits}
        for i, timer in enumerate(self.course.timers):
            goes_on = self.sat.both(moment.lit(timer.run_next), -moment.lit(timer.start))
            self.lasting[i] = self.sat.both(self.lasting[i], goes_on)

    def _constant(self, value: bool) -> int:
        return self.sat.true if value else -self.sat.true

    def _bound(self, moment: Circuit) -> list[int]:
        """What is given, and the coding of the world."""
        return [moment.lit(self.course.meets), *(moment.lit(c.lit) for c in self.cone.constraints)]

    def _just_before(self) -> dict[Node, int]:
        shown: dict[Node, int] = {}
        for timer, lasts in zip(self.course.timers, self.lasting, strict=True):
            if isinstance(timer, Clock):
                shown[timer.due >> 1] = -self.sat.true
            else:
                more = lasts if self.shown.get(timer.gt >> 1) else -self.sat.true
                shown |= {timer.ge >> 1: more, timer.gt >> 1: more}
        return shown

    def _now(self) -> dict[Node, int]:
        shown: dict[Node, int] = {}
        for timer, lasts in zip(self.course.timers, self.lasting, strict=True):
            for lit in (timer.due,) if isinstance(timer, Clock) else (timer.ge, timer.gt):
                shown[lit >> 1] = lasts if self.shown.get(lit >> 1) else -self.sat.true
        return shown

    def _fewest_moves(self, moments: list[Circuit]) -> list[dict[str, int]]:
        """Lets one thing after the other stay as long as there still is a way."""
        kept = self._bound(moments[-1])
        for stays in self._staying(moments):
            if self.sat.solve([*kept, stays]):
                kept.append(stays)
        if not self.sat.solve(kept):
            raise AssertionError("a way was lost")
        worlds = [{c.variable.name: self._index([self.start[bit >> 1] for bit in c.bits]) for c in self.coded}]
        for moment in moments:
            worlds.append({c.variable.name: self._index([moment.lit(bit) for bit in c.bits]) for c in self.coded})
        return worlds

    def _index(self, bits: list[int]) -> int:
        return sum(self.sat.holds(bit) << i for i, bit in enumerate(bits))

    def _staying(self, moments: list[Circuit]) -> Iterator[int]:
        """For each thing and moment a literal that it does not move there."""
        for coded in self.coded:
            before = [self.start[bit >> 1] for bit in coded.bits]
            for moment in moments:
                now, stays = [moment.lit(bit) for bit in coded.bits], self.sat.new()
                for a, b in zip(before, now, strict=True):
                    self.sat.add([-stays, -a, b])
                    self.sat.add([-stays, a, -b])
                before = now
                yield stays


def _as_found(names: list[str], worlds: list[dict[str, int]]) -> Plan:
    """Each of these things is moved to where it was at that moment."""
    return Plan(tuple(tuple((name, world[name]) for name in names) for world in worlds[1:]))


def _from_anywhere(course: Course, plan: Plan) -> Plan:
    """The same way, with moments enough for what moves step by step to come there from any of its values."""
    if len(plan.moments) == 1:
        return plan
    *_, before, last = plan.moments
    coded = course.cone.system.world.coded
    steps = max([1, *(len(coded[name].legal) - 1 for name, _ in before if name in course.stepping)])
    return Plan((before,) * steps + (last,))
