"""One moment in a solver: from what was stored before it to what is stored after it, and real times that fit."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Cover, Name
from logiccheck.audit.covers import inside
from logiccheck.audit.differences import Bound, clash
from logiccheck.audit.gates import Lit
from logiccheck.audit.ladder import Ladder, Rung, Standing, lessons
from logiccheck.audit.relation import Relation
from logiccheck.audit.solver import Loaded, Solver
from logiccheck.audit.traces import Clock
from logiccheck.base.budget import Budget

LAST = "the moment before"
NOW = "this moment"


def known(relation: Relation, name: Name) -> bool:
    """Whether this is stored at all."""
    past = relation.moment.past
    if isinstance(name, Ahead):
        return name.timer in past.clocks and (name.other is None or name.other in past.clocks)
    return name in past.after


class Step:
    """Loads what a certificate and its question speak of; `possible` asks for a moment that can really be."""

    def __init__(
        self, relation: Relation, solver: Solver, certificate: Certificate, happens: Lit, budget: Budget
    ) -> None:
        self.relation, self.solver, self.budget = relation, solver, budget
        self.past = relation.moment.past
        names = list(dict.fromkeys(certificate.names()))
        self.ahead = [name for name in names if isinstance(name, Ahead)]
        compared = {key for name in self.ahead for key in (name.timer, name.other) if key is not None}
        meets = [relation.lines[line] for line in sorted(certificate.lines, key=str)]
        roots = [happens, *meets]
        roots += [relation.stored(name, after) for name in names for after in (False, True)]
        self._covers = {
            cover: (inside(relation, cover, after=False), inside(relation, cover, after=True))
            for cover in certificate.covers
        }
        roots += [lit for both in self._covers.values() for lit in both]
        for key in compared:
            clock = self.past.clocks[key]
            roots += (clock.runs, clock.due, clock.goes_on, clock.begins)
        self.loaded = Loaded(solver, relation.moment.gates, roots)
        self.clocks = {key: c for key, c in self.past.clocks.items() if key in compared or self.loaded.knows(c.due)}
        self._begin = compared
        for lit in meets:
            solver.add([self.lit(lit)])
        self._order_world()
        self._make_ladders()

    def lit(self, lit: Lit) -> int:
        return self.loaded.lit(lit)

    def _order_world(self) -> None:
        """Of the places of a variable, "i or more" follows from "j or more" for a larger j."""
        for order in self.relation.moment.world.orders():
            for less, more in pairwise([lit for lit in order if self.loaded.knows(lit)]):
                self.solver.add([-self.lit(more), self.lit(less)])

    def _make_ladders(self) -> None:
        """All comparisons of the same deadlines, in their order."""
        named: dict[tuple[str, str | None, bool], list[Rung]] = defaultdict(list)
        for name in self.ahead:
            for after in (False, True):
                more = self.relation.compared(name, after).more
                if self.loaded.knows(more):
                    named[name.timer, name.other, after].append(Rung(name.bound, name.or_same, self.lit(more)))
        # those after the moment first: they are the ones to be weakened (see `lessons`)
        self._ladders = {key: Ladder(named[key]) for key in sorted(named, key=lambda key: (not key[2], str(key)))}
        for ladder in self._ladders.values():
            for clause in ladder.order():
                self.solver.add(clause)

    # what is known

    def speaks_of(self, clause: Clause) -> bool:
        """Whether all that the clause names is loaded."""
        return all(self.loaded.knows(self.relation.stored(name, False)) for name, _ in clause)

    def assume(self, clauses: Iterable[Clause]) -> None:
        """These hold before the moment."""
        for clause in clauses:
            self.solver.add(self._literals(clause, False))

    def assume_covers(self) -> None:
        """Every cover holds before the moment."""
        for before, _ in self._covers.values():
            self.solver.add([self.lit(before)])

    def in_cover(self, cover: Cover) -> int:
        """The cover holds after the moment."""
        return self.lit(self._covers[cover][1])

    def _literals(self, clause: Clause, after: bool) -> list[int]:
        return [self.lit(self.relation.stored(name, after)) * (1 if positive else -1) for name, positive in clause]

    # what can be

    def possible(self, assumptions: list[int]) -> bool:
        """Whether some moment at some real time is like that. May raise OutOfTime."""
        while True:
            self.budget.check()
            if not self.solver.solve(assumptions):
                return False
            standing = {each.bound(): each for each in self._standing()}
            cycle = clash([*self._bounds(), *standing])
            if cycle is None:
                return True
            for together in lessons(cycle, standing):
                self.solver.add([-lit for lit in together])

    def left(self, clauses: Iterable[Clause]) -> Clause | None:
        """One of the clauses that some moment leads out of; None if there is none. May raise OutOfTime."""
        outside = {clause: self.solver.new() for clause in clauses}
        for clause, lit in outside.items():
            for literal in self._literals(clause, True):
                self.solver.add([-lit, -literal])
        some = self.solver.new()
        self.solver.add([-some, *outside.values()])
        if not self.possible([some]):
            return None
        return next(clause for clause, lit in outside.items() if self.solver.holds(lit))

    def _true(self, lit: Lit) -> bool:
        return self.solver.holds(self.lit(lit))

    def _bounds(self) -> Iterator[Bound]:
        """What the moment that SAT proposes says about times."""
        yield Bound(LAST, NOW, 0, True, ())
        for key, clock in self.clocks.items():
            yield from self._of_clock(key, clock)

    def _of_clock(self, key: str, clock: Clock) -> Iterator[Bound]:
        if self._true(clock.runs):
            runs, due = self.lit(clock.runs), self.lit(clock.due)
            old = f"old {key}"
            yield Bound(LAST, old, 0, True, (runs,))
            yield Bound(old, LAST, clock.hi, False, (runs,))
            if self.solver.holds(due):
                yield Bound(old, NOW, 0, False, (due,))
                yield Bound(NOW, old, 0, False, (due,))
            else:
                yield Bound(NOW, old, 0, True, (runs, -due))
        if key in self._begin and self._true(clock.begins):
            begins = (self.lit(clock.begins),)
            new = f"new {key}"
            yield Bound(new, NOW, clock.hi, False, begins)
            yield Bound(NOW, new, -clock.lo, False, begins)

    def _standing(self) -> Iterator[Standing]:
        """Where the comparisons stand of which both deadlines are there."""
        for (timer, other, after), ladder in self._ladders.items():
            first, second = self._deadline(timer, after), self._deadline(other, after)
            if first is not None and second is not None:
                yield from ladder.standing(self.solver.holds, (first[0], second[0]), (*first[1], *second[1]))

    def _deadline(self, key: str | None, after: bool) -> tuple[str, tuple[int, ...]] | None:
        """The deadline of a timer that runs then, and what says that it does."""
        if key is None:
            return (NOW if after else LAST), ()
        clock = self.past.clocks[key]
        if not after:
            return (f"old {key}", (self.lit(clock.runs),)) if self._true(clock.runs) else None
        if self._true(clock.begins):
            return f"new {key}", (self.lit(clock.begins),)
        return (f"old {key}", (self.lit(clock.goes_on),)) if self._true(clock.goes_on) else None
