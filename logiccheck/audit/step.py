"""One moment in a solver: from what was stored before it to what is stored after it, and real times that fit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Name
from logiccheck.audit.differences import Bound, clash
from logiccheck.audit.gates import Lit
from logiccheck.audit.relation import Compared, Relation
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
        names = list(dict.fromkeys(name for clause in certificate.clauses for name, _ in clause))
        self.ahead = [name for name in names if isinstance(name, Ahead)]
        compared = {key for name in self.ahead for key in (name.timer, name.other) if key is not None}
        meets = [relation.lines[line] for line in sorted(certificate.lines, key=str)]
        roots = [happens, *meets]
        roots += [self._stored(name, after) for name in names for after in (False, True)]
        for key in compared:
            clock = self.past.clocks[key]
            roots += (clock.runs, clock.due, clock.goes_on, clock.begins)
        self.loaded = Loaded(solver, relation.moment.gates, roots)
        self.clocks = {key: c for key, c in self.past.clocks.items() if key in compared or self.loaded.knows(c.due)}
        self._begin = compared
        for lit in meets:
            solver.add([self.lit(lit)])
        self._order_world()

    def lit(self, lit: Lit) -> int:
        return self.loaded.lit(lit)

    def _stored(self, name: Name, after: bool) -> Lit:
        if isinstance(name, Ahead):
            return self.relation.compared(name, after).holds
        return self.past.after[name] if after else self.past.before[name]

    def _order_world(self) -> None:
        """Of the places of a variable, "i or more" follows from "j or more" for a larger j."""
        for order in self.relation.moment.world.orders():
            for less, more in pairwise([lit for lit in order if self.loaded.knows(lit)]):
                self.solver.add([-self.lit(more), self.lit(less)])

    # what is known

    def speaks_of(self, clause: Clause) -> bool:
        """Whether all that the clause names is loaded."""
        return all(self.loaded.knows(self._stored(name, False)) for name, _ in clause)

    def assume(self, clauses: Iterable[Clause]) -> None:
        """These hold before the moment."""
        for clause in clauses:
            self.solver.add(self._literals(clause, False))

    def after(self, clause: Clause) -> list[int]:
        """The literals of a clause after the moment."""
        return self._literals(clause, True)

    def _literals(self, clause: Clause, after: bool) -> list[int]:
        return [self.lit(self._stored(name, after)) * (1 if positive else -1) for name, positive in clause]

    # what can be

    def possible(self, assumptions: list[int]) -> bool:
        """Whether some moment at some real time is like that. May raise OutOfTime."""
        while True:
            self.budget.check()
            if not self.solver.solve(assumptions):
                return False
            why = clash(list(self._bounds()))
            if why is None:
                return True
            self.solver.add([-lit for lit in why])

    def _true(self, lit: Lit) -> bool:
        return self.solver.holds(self.lit(lit))

    def _bounds(self) -> Iterator[Bound]:
        """What the moment that SAT proposes says about times."""
        yield Bound(LAST, NOW, 0, True, ())
        for key, clock in self.clocks.items():
            yield from self._of_clock(key, clock)
        for name in self.ahead:
            for after in (False, True):
                yield from self._of_comparison(name, self.relation.compared(name, after), after)

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

    def _of_comparison(self, name: Ahead, compared: Compared, after: bool) -> Iterator[Bound]:
        first, other = self._deadline(name.timer, after), self._deadline(name.other, after)
        if first is None or other is None:
            return
        (point, why), (against, why_too) = first, other
        more = self.lit(compared.more)
        if self.solver.holds(more):
            yield Bound(against, point, -name.bound, not name.or_same, (*why, *why_too, more))
        else:
            yield Bound(point, against, name.bound, name.or_same, (*why, *why_too, -more))

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
