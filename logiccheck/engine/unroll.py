"""Stories unrolled moment by moment, with time decided lazily.

SAT proposes a sequence of moments; difference constraints (see `timing`) accept it or give a cycle, which becomes a
clause over "timer i runs since moment b" and what it shows, put at every place of the unrolling.
References: Biere, Cimatti, Clarke, Zhu, "Symbolic model checking without BDDs", TACAS 1999; Audemard, Cimatti,
Kornilowicz, Sebastiani, "Bounded model checking for timed systems", FORTE 2002.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.grid import Grid
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.timing import Edge, Fact, Follower, Runs, Trace, earliest, edges_of
from logiccheck.model.circuit.aig import Lit
from logiccheck.model.circuit.system import Clock, Watch

# A pattern of facts that cannot hold together: (fact, key, begin, at), moments counted back from the last one (0, -1,
# ...).
Pattern: TypeAlias = frozenset[tuple[Fact | None, str, int, int]]


class Unrolling:
    """Moments 0 .. n-1 of a cone in one solver; `bad[k]` is the literal that moment k is where it goes wrong."""

    def __init__(self, cone: Cone, budget: Budget, solver: str = "cadical153") -> None:
        self.cone, self.budget = cone, budget
        self.sat = Sat(solver)
        self.template = Template(cone.aig, cone.order)
        self.moments: list[Circuit] = []
        self.bad: list[int] = []
        timers: list[Clock | Watch] = [*cone.clocks, *cone.watches]
        self.timers = {timer.key: timer for timer in timers}
        self.age: list[dict[tuple[str, int], int]] = []  # age[k][key, b]: it runs before moment k and began at b
        self.patterns: set[Pattern] = set()
        self.grids: dict[Grid, int] = {}  # the guard of what was learned of each

    def extend(self) -> None:
        """One moment more."""
        k = len(self.moments)
        before = self.moments[-1] if self.moments else None
        given = {b.now >> 1: before.lit(b.next) if before else -self.sat.true for b in self.cone.bits}
        moment = Circuit(self.sat, self.template, given)
        self.moments.append(moment)
        for constraint in self.cone.constraints:
            self.sat.add([moment.lit(constraint.lit)])
        self.age.append(self._ages(k))
        for clock in self.cone.clocks:
            self.sat.add([-moment.lit(clock.due), moment.lit(clock.run)])
        for watch in self.cone.watches:
            self.sat.add([-moment.lit(watch.gt), moment.lit(watch.ge)])
        for pattern in self.patterns:
            self._forbid(pattern, k)
        self.bad.append(moment.lit(self.cone.bad))

    def _ages(self, k: int) -> dict[tuple[str, int], int]:
        if k == 0:
            return {}
        before, ages = self.moments[k - 1], {}
        for timer in self.timers.values():
            runs, starts = before.lit(timer.run_next), before.lit(timer.start)
            goes_on = self.sat.both(runs, -starts)
            for (key, b), lit in self.age[k - 1].items():
                if key == timer.key:
                    ages[key, b] = self.sat.both(lit, goes_on)
            fresh = self.sat.both(runs, starts)
            ages[timer.key, k - 1] = fresh
        return {at: lit for at, lit in ages.items() if lit != -self.sat.true}

    # lessons of time

    def learn(self, cycle: Sequence[Edge]) -> None:
        """Forbids the facts of a cycle of constraints, wherever in the unrolling they stand."""
        facts = {(e.fact, e.key, e.begin, e.at) for e in cycle if e.fact is not None}
        last = max(at for _, _, _, at in facts)
        pattern = frozenset((fact, key, b - last, at - last) for fact, key, b, at in facts)
        if pattern in self.patterns:
            raise AssertionError("a lesson of time was forgotten")
        self.patterns.add(pattern)
        for k in range(len(self.moments)):
            self._forbid(pattern, k)

    def _forbid(self, pattern: Pattern, last: int) -> None:
        clause = []
        for fact, key, b, at in pattern:
            age = self.age[last + at].get((key, last + b)) if last + b >= 0 else None
            if age is None:
                return
            clause += [-age, *(-x for x in self._shown(fact, key, last + at))]
        self.sat.add(clause)

    def _shown(self, fact: Fact | None, key: str, k: int) -> list[int]:
        """The literals (beside the age) that make a fact of moment k."""
        moment, timer = self.moments[k], self.timers[key]
        if isinstance(timer, Clock):
            due = moment.lit(timer.due)
            return [due if fact is Fact.DUE else -due]
        ge, gt = moment.lit(timer.ge), moment.lit(timer.gt)
        shown = {Fact.GE: ge, Fact.LESS: -ge, Fact.GT: gt, Fact.LE: -gt, Fact.MUST: moment.lit(timer.must)}
        assert fact is not None
        return [shown[fact]]

    # asking

    def trace(self) -> Trace:
        inputs = self.cone.inputs
        return [moment.values(inputs) for moment in self.moments]

    def _runs(self) -> Runs:
        """Which timers run when, in the last model."""
        follower = Follower()
        for moment in self.moments:
            value = moment.value
            timers = [(t, value(t.start), value(t.run_next)) for t in self.timers.values()]
            musts = {w.key for w in self.cone.watches if value(w.must)}
            follower.step(timers, musts)
        return follower.runs

    def possible(
        self, assumptions: Sequence[int], asked: Sequence[Edge] = (), grid: Grid | None = None
    ) -> tuple[Trace, list[int]] | None:
        """A sequence of moments that is possible in time, with the further constraints that are asked for, and its
        earliest times; None if there is none. The times and the bounds asked for are scaled as in `timing`, or count
        units of the grid that all times shall be on."""
        count, guard = len(self.moments), self.sat.new()
        guards = [guard] if grid is None else [guard, self._guard(grid)]
        while True:
            self.budget.check()
            if not self.sat.solve([*assumptions, *guards]):
                return None
            trace = self.trace()
            edges = edges_of(self.cone, trace, self._runs())
            dense, cycle = earliest(count, edges if grid else [*edges, *asked])
            if dense is None and not (cycle and any(e.fact is Fact.ASKED for e in cycle)):
                self.learn(cycle or [])
                continue
            if grid is None:
                times = dense
            else:
                times, cycle = earliest(count, [*grid.edges(edges, count), *asked])
            if times is not None:
                return trace, times
            self._learn_here(cycle or [], guard, grid)

    def _guard(self, grid: Grid) -> int:
        """Stands for "all times are on this grid"; what can never fall due on it is known at once."""
        if grid not in self.grids:
            guard = self.grids[grid] = self.sat.new()
            for clock in self.cone.clocks:
                if clock.hi // grid.unit < -(-clock.lo // grid.unit):
                    for moment in self.moments:
                        self.sat.add([-guard, -moment.lit(clock.due)])
        return self.grids[grid]

    def _learn_here(self, cycle: Sequence[Edge], guard: int, grid: Grid | None) -> None:
        """A cycle through what is asked holds for this question only, any other for its grid: wherever its facts may
        stand, unless the last moment, which may be another kind of moment there, has a part in it."""
        facts = [(e.fact, e.key, e.begin, e.at) for e in cycle if e.fact is not None and e.fact is not Fact.ASKED]
        if any(e.fact is Fact.ASKED for e in cycle) or grid is None:
            self._forbid_all(facts, guard, (0,))
            return
        last, most = len(self.moments) - 1, max(at for _, _, _, at in facts)
        free = range(-min(b for _, _, b, _ in facts), last - most + (0 if grid.late else 1))
        self._forbid_all(facts, self.grids[grid], free if most < last or not grid.late else (0,))

    def _forbid_all(self, facts: Sequence[tuple[Fact, str, int, int]], guard: int, shifts: Iterable[int]) -> None:
        """Forbids these facts, moved by each of these numbers of moments, as long as the guard is assumed."""
        for shift in shifts:
            clause = [-guard]
            for fact, key, b, at in facts:
                age = self.age[at + shift].get((key, b + shift))
                if age is None:
                    break
                clause += [-age, *(-x for x in self._shown(fact, key, at + shift))]
            else:
                self.sat.add(clause)

    # the last moment

    def end_here(self) -> list[int]:
        """From now on it goes wrong at the last moment; and where something is overdue by it, it is the moment just
        after that was due, and brings nothing: whatever it brings could as well come a moment later.

        Gives, for each variable of the world and each moment after the first, a literal that is true if it changes.
        """
        self.sat.add([self.bad[-1]])
        changes = [self.changes(k) for k in range(1, len(self.moments))]
        self._brings_nothing(changes[-1] if changes else [])
        return [lit for each in changes for lit in each]

    def may_end_here(self) -> None:
        """The same if it goes wrong at the last moment, which it need not do. Where more moments are to come, it is
        said not to go wrong at this one first."""
        last = len(self.moments) - 1
        self._brings_nothing(self.changes(last) if last else [])

    def _brings_nothing(self, changed: list[int]) -> None:
        last = self.moments[-1]
        for lit in (*(last.lit(clock.due) for clock in self.cone.clocks), *changed):
            self.sat.add([-last.lit(self.cone.overdue), -lit])

    def changes(self, k: int) -> list[int]:
        """One literal for each variable of the world: it changes at moment k."""
        result = []
        for nodes in self.cone.world.values():
            changed = self.sat.new()
            for node in nodes:
                now: Lit = self.moments[k].lit(2 * node)
                was: Lit = self.moments[k - 1].lit(2 * node)
                self.sat.add([-now, was, changed])
                self.sat.add([now, -was, changed])
            result.append(changed)
        return result
