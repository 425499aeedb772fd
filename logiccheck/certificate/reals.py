"""Moments in a solver that knows both conditions and real numbers: every deadline is one, and nothing is put off.

The moment itself is that of the audit, built from the resolved tree; its SAT solver and its differences of times are
not used. Reference: L. de Moura, N. Bjorner, "Z3: an efficient SMT solver", TACAS 2008.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import pairwise
from threading import Event, Thread
from typing import TypeAlias

import z3

from logiccheck.audit.certificate import Ahead, Clause, Cover, Name
from logiccheck.audit.gates import YES, Gate, Lit
from logiccheck.audit.relation import Relation
from logiccheck.audit.traces import Clock
from logiccheck.base.budget import LOOK_SECONDS, Budget, OutOfMemory, OutOfTime

Condition: TypeAlias = z3.BoolRef
Instant: TypeAlias = z3.ArithRef

LATER = 50  # milliseconds after the end of a budget at which the library stops: what it breaks off before was Ctrl-C


class RealMoment:
    """One moment: what was stored before it (what is not told is free), its time, and what is stored after it."""

    def __init__(self, relation: Relation, tag: str, bits: Mapping[str, Condition]) -> None:
        self.relation, self.tag = relation, tag
        self.past, self.gates = relation.moment.past, relation.moment.gates
        self.values: dict[Gate, Condition] = {YES: z3.BoolVal(True)}
        self.values.update({abs(self.past.before[name]): value for name, value in bits.items()})
        self.time = z3.Real(f"time{tag}")

    def holds(self, lit: Lit) -> Condition:
        """A condition of this moment."""
        if abs(lit) not in self.values:
            for gate in self.gates.cone([lit]):
                if gate not in self.values:
                    self.values[gate] = self._made(gate)
        return self.values[lit] if lit > 0 else z3.Not(self.values[-lit])

    def _made(self, gate: Gate) -> Condition:
        parts = self.gates.parts[gate]
        return z3.Bool(f"gate{gate}{self.tag}") if parts is None else z3.And([self.holds(part) for part in parts])

    def timed(self, clock: Clock, old: Instant, new: Instant) -> list[Condition]:
        """What a timer says of its deadlines, the one before the moment and the one after it."""
        due = z3.If(self.holds(clock.due), old == self.time, old > self.time)
        begins = z3.And(self.time + clock.lo <= new, new <= self.time + clock.hi)
        return [
            z3.Implies(self.holds(clock.runs), due),
            z3.Implies(self.holds(clock.begins), begins),
            z3.Implies(self.holds(clock.goes_on), new == old),
        ]


@contextmanager
def _kept_small(budget: Budget) -> Iterator[Event]:
    """While the library works inside, it is told to stop as soon as the process holds all the memory that it may; that
    is set then. A bound of the library's own would take the process down where it is met."""
    full, done = Event(), Event()

    def look() -> None:
        while not done.wait(LOOK_SECONDS):
            if budget.memory_is_full():
                full.set()
                z3.main_ctx().interrupt()

    watch = Thread(target=look, daemon=True)
    watch.start()
    try:
        yield full
    finally:
        done.set()
        watch.join()


class Asked:
    """A solver; `possible` may raise OutOfTime, MemoryError, or KeyboardInterrupt."""

    def __init__(self, relation: Relation) -> None:
        self.relation = relation
        self.past, self.gates = relation.moment.past, relation.moment.gates
        self.solver = z3.Solver()

    def order_world(self, moment: RealMoment, cone: set[Gate]) -> None:
        """Of the places of a variable, "i or more" follows from "j or more" for a larger j."""
        for order in self.relation.moment.world.orders():
            for less, more in pairwise([lit for lit in order if abs(lit) in cone]):
                self.solver.add(z3.Implies(moment.holds(more), moment.holds(less)))

    def possible(self, what: Condition, budget: Budget) -> z3.ModelRef | None:
        """A model of everything added in which this is so, or None."""
        budget.check()
        self.solver.set("timeout", int(1000 * budget.left) + LATER)
        self.solver.push()
        self.solver.add(what)
        with _kept_small(budget) as full:
            answer = self.solver.check()
        model = self.solver.model() if answer == z3.sat else None
        why = self.solver.reason_unknown() if answer == z3.unknown else ""
        self.solver.pop()
        if why and full.is_set():
            raise OutOfMemory
        if "interrupted" in why or ("canceled" in why and budget.left > 0):
            raise KeyboardInterrupt  # the library takes Ctrl-C for itself while it works
        if why:
            raise OutOfTime
        return model

    def clocks_in(self, cone: set[Gate]) -> dict[str, Clock]:
        """The timers that matter to these conditions."""
        return {key: clock for key, clock in self.past.clocks.items() if abs(clock.due) in cone}


class Step(Asked):
    """One moment after any past in which some clauses hold."""

    def __init__(self, moment: RealMoment, happens: Lit, meets: Sequence[Lit], names: Iterable[Name]) -> None:
        """In the moment nothing that was stored before it is told; it may serve for many steps."""
        super().__init__(moment.relation)
        names = list(names)
        compared = {key for n in names if isinstance(n, Ahead) for key in (n.timer, n.other) if key is not None}
        roots = [happens, *meets]
        for name in names:
            if not isinstance(name, Ahead):
                roots += (self.past.before[name], self.past.after[name])
        for key in compared:
            clock = self.past.clocks[key]
            roots += (clock.runs, clock.due, clock.goes_on, clock.begins)
        self.cone = set(self.gates.cone(roots))
        self.clocks = {**self.clocks_in(self.cone), **{key: self.past.clocks[key] for key in compared}}
        self.moment = moment
        self.last = z3.Real("last")
        self.old = {key: z3.Real(f"old {key}") for key in self.clocks}
        self.new = {key: z3.Real(f"new {key}") for key in self.clocks}
        self.happens = self.moment.holds(happens)
        self.solver.add([self.moment.holds(lit) for lit in meets])
        self.solver.add(self.last < self.moment.time)
        for key, clock in self.clocks.items():
            self.solver.add(self.moment.timed(clock, self.old[key], self.new[key]))
            waits = z3.And(self.last < self.old[key], self.old[key] <= self.last + clock.hi)
            self.solver.add(z3.Implies(self.moment.holds(clock.runs), waits))
        self.order_world(self.moment, self.cone)

    def speaks_of(self, clause: Clause) -> bool:
        """Whether all that the clause names matters here."""
        return all(
            {name.timer, name.other} <= {None, *self.clocks}
            if isinstance(name, Ahead)
            else abs(self.past.before[name]) in self.cone
            for name, _ in clause
        )

    def assume(self, clauses: Iterable[Clause]) -> None:
        """These hold before the moment."""
        self.solver.add([self._clause(clause, after=False) for clause in clauses])

    def assume_covers(self, covers: Iterable[Cover]) -> None:
        """These hold before the moment."""
        self.solver.add([self._cover(cover, after=False) for cover in covers])

    def breaks(self, clauses: Sequence[Clause], covers: Sequence[Cover], budget: Budget) -> Clause | Cover | None:
        """One of these that a moment can lead out of, or None."""
        after = [(clause, self._clause(clause, after=True)) for clause in clauses]
        broken: list[tuple[Clause | Cover, Condition]] = [(clause, z3.Not(holds)) for clause, holds in after]
        broken += [(cover, z3.Not(self._cover(cover, after=True))) for cover in covers]
        if not broken:
            return None
        model = self.possible(z3.Or([left for _, left in broken]), budget)
        if model is None:
            return None
        return next(each for each, left in broken if z3.is_true(model.eval(left, model_completion=True)))

    def _clause(self, clause: Clause, after: bool) -> Condition:
        return z3.Or([self._named(name, after) == positive for name, positive in clause])

    def _cover(self, cover: Cover, after: bool) -> Condition:
        sorts = [z3.BoolVal(False), z3.BoolVal(True)]
        for choice in cover.choices:
            sorts.append(z3.If(self._named(choice.bit, after), sorts[choice.then], sorts[choice.other]))
        return z3.Or(
            [z3.And(sorts[p.sort], *(self._named(name, after) == so for name, so in p.apart)) for p in cover.parts]
        )

    def _named(self, name: Name, after: bool) -> Condition:
        if not isinstance(name, Ahead):
            return self.moment.holds(self.past.after[name] if after else self.past.before[name])
        deadlines, time = (self.new, self.moment.time) if after else (self.old, self.last)
        ahead = deadlines[name.timer] - (time if name.other is None else deadlines[name.other])
        running = [self._runs(key, after) for key in (name.timer, name.other) if key is not None]
        return z3.And(*running, ahead >= name.bound if name.or_same else ahead > name.bound)

    def _runs(self, key: str, after: bool) -> Condition:
        clock, holds = self.clocks[key], self.moment.holds
        return z3.Or(holds(clock.goes_on), holds(clock.begins)) if after else holds(clock.runs)


class Run(Asked):
    """Moments from time 0 on, each of which meets what is given; as far as that and `asked` can be told apart."""

    def __init__(self, relation: Relation, meets: Sequence[Lit], asked: Sequence[Lit]) -> None:
        super().__init__(relation)
        self.meets, self.moments = meets, list[RealMoment]()
        self._bits, self._clocks, self._cone = self._matter([*meets, *asked])
        self._deadlines = {key: z3.Real(f"none {key}") for key in self._clocks}

    @classmethod
    def touched(cls, relation: Relation, asked: Lit) -> Run:
        """With what is given as far as it has to do, over any number of lines, with the same things of the world.

        What else is given can be met beside it; that it lets time go on is shown by itself.
        """
        owner = {abs(g): n for n, v in relation.moment.world.variables.items() for g in v.reaches.values()}

        def world(lits: list[Lit]) -> set[str]:
            return {owner[gate] for gate in cls(relation, [], lits)._cone if gate in owner}

        about, left = world([asked]), {line: world([lit]) for line, lit in relation.lines.items()}
        chosen: list[Lit] = []
        while touching := [line for line, names in left.items() if names & about]:
            for line in touching:
                about |= left.pop(line)
                chosen.append(relation.lines[line])
        return cls(relation, chosen, [asked])

    def _matter(self, lits: list[Lit]) -> tuple[list[str], dict[str, Clock], set[Gate]]:
        """Stored bits, timers and conditions that these depend on through any number of moments."""
        wanted = list(lits)
        while True:
            cone = set(self.gates.cone(wanted))
            bits = [name for name, gate in self.past.before.items() if abs(gate) in cone]
            clocks = self.clocks_in(cone)
            more = [*lits, *(self.past.after[name] for name in bits)]
            for clock in clocks.values():
                more += (clock.runs, clock.due, clock.goes_on, clock.begins)
            if set(more) == set(wanted):
                return bits, clocks, cone
            wanted = more

    def extend(self) -> None:
        """One more moment."""
        k, earlier = len(self.moments), self.moments[-1] if self.moments else None
        bits = {name: z3.BoolVal(False) for name in self._bits}
        if earlier is not None:
            bits = {name: z3.Bool(f"{name} after {k - 1}") for name in self._bits}
            self.solver.add([bits[name] == earlier.holds(self.past.after[name]) for name in self._bits])
        moment = RealMoment(self.relation, f" at {k}", bits)
        self.solver.add(moment.time == 0 if earlier is None else moment.time > earlier.time)
        new = {key: z3.Real(f"{key} after {k}") for key in self._clocks}
        for key, clock in self._clocks.items():
            self.solver.add(moment.timed(clock, self._deadlines[key], new[key]))
        self.order_world(moment, self._cone)
        self.solver.add([moment.holds(lit) for lit in self.meets])
        self.moments.append(moment)
        self._deadlines = new

    def shows(self, lits: Sequence[Lit], budget: Budget) -> frozenset[Lit]:
        """Those of these conditions that one run of these moments shows, whichever; none if no run shows any."""
        shown = {lit: z3.Or([moment.holds(lit) for moment in self.moments]) for lit in lits}
        model = self.possible(z3.Or(list(shown.values())), budget)
        if model is None:
            return frozenset()
        return frozenset(lit for lit, seen in shown.items() if z3.is_true(model.eval(seen, model_completion=True)))
