"""What an observer sees of the settled values: nobody's memory, never cleared, with no edge at time 0.

Every condition has a value *at* the moment and one just *after* it, which lasts until the next moment. Edges are
between settled values: they hold at their moment only. So an observer looks twice; in the second look the value before
is the value now.
"""

from __future__ import annotations

from typing import NamedTuple

from logiccheck.audit.conditions import Conditions
from logiccheck.audit.gates import NO, YES, Gates, Lit
from logiccheck.audit.memory import Memory
from logiccheck.audit.moment import Moment
from logiccheck.audit.traces import Clock, Look
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Edge, Expr, Micros, Previous
from logiccheck.lang.walk import subexpressions


class Seen(NamedTuple):
    at: Lit
    after: Lit


@frozen
class Since:
    """How long something has gone on, held against a time t.

    Before this moment it `goes` on, and began at least t (`reached`) or more than t (`passed`) before this moment.
    `running` is the clock, which ends when t has passed; `due`: this is that moment.
    """

    name: str
    time: Micros
    goes: Lit
    reached: Lit
    passed: Lit
    running: Lit
    due: Lit


class Observer:
    """The eyes and the memory of one requirement, or of one line of what is given, under its name."""

    def __init__(self, moment: Moment, name: str) -> None:
        self.moment, self.name = moment, name
        self.gates: Gates = moment.gates
        self.first = moment.first

    def see(self, expr: Expr | None) -> Seen:
        """Nothing (None) never holds."""
        if expr is None:
            return Seen(NO, NO)
        look = Look(self.moment.past)
        at = self._value(
            expr, Memory(look, YES, lambda name, now: self.gates.choose(self.first, now, look.found(name)))
        )
        after = at
        if any(isinstance(part, Edge | Previous) for part in subexpressions(expr)):
            look = Look(self.moment.past, look)
            after = self._value(expr, Memory(look, YES, lambda _, now: now))
        look.close()
        return Seen(at, after)

    def _value(self, expr: Expr, memory: Memory) -> Lit:
        settled, moment = self.moment.settled, self.moment
        return Conditions(moment.program, moment.world, settled.values, settled.filtered, memory).holds(expr)

    # memory of its own

    def bit(self, what: str) -> Lit:
        return self.moment.past.bit(f"{self.name}:{what}")

    def keep(self, what: str, after: Lit) -> None:
        self.moment.past.keep(f"{self.name}:{what}", after)

    def kept(self, what: str, after: Lit) -> Lit:
        return self.moment.past.kept(f"{self.name}:{what}", after)

    def since(self, what: str, time: Micros) -> Since:
        gates, past, name = self.gates, self.moment.past, f"{self.name}:{what}"
        run, over = past.bit(f"{name}.run"), past.bit(f"{name}.over")
        running = gates.both(run, -over)
        due, passed = gates.both(running, past.due(name)), gates.both(run, over)
        return Since(name, time, run, gates.either(passed, due), passed, running, due)

    def follow(self, since: Since, goes_on: Lit, anew: Lit) -> None:
        """`goes_on`: it is so just after this moment; `anew`: then the run begins with this moment."""
        gates, past, name = self.gates, self.moment.past, since.name
        over = gates.all([goes_on, -anew, since.reached])
        past.keep(f"{name}.run", goes_on)
        past.keep(f"{name}.over", over)
        goes = gates.all([since.running, -since.due, goes_on, -anew])
        begins = gates.all([goes_on, -over, -goes])
        past.follow(name, Clock(since.time, since.time, since.running, since.due, goes, begins))

    # connectives

    def both(self, x: Seen, y: Seen) -> Seen:
        return Seen(self.gates.both(x.at, y.at), self.gates.both(x.after, y.after))

    def either(self, x: Seen, y: Seen) -> Seen:
        return Seen(self.gates.either(x.at, y.at), self.gates.either(x.after, y.after))

    def denied(self, x: Seen) -> Seen:
        return Seen(-x.at, -x.after)

    def ever(self, x: Seen) -> Lit:
        """At this moment, or just after it."""
        return self.gates.either(x.at, x.after)
