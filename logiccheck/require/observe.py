"""Observers: what a requirement or an assumption sees of the settled values, moment by moment, and what it remembers.

An observer is nobody's memory: it is never cleared, and sees no edge at time 0. Every condition has two values at a
moment: *at* it, when edges show, and just *after* it, which lasts until the next moment. They differ only where edges
or `previous` are named; then the observer reacts twice, as a box does in a repeat.
"""

from __future__ import annotations

from typing import NamedTuple

from logiccheck.lang.program import Edge, Expr, Micros, Previous
from logiccheck.lang.walk import subexpressions
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.reaction import Evaluator
from logiccheck.model.circuit.store import Store
from logiccheck.model.circuit.system import System, Watch


class Seen(NamedTuple):
    """The value of a condition at the moment, and just after it (until the next one)."""

    at: Lit
    after: Lit


NEVER = Seen(FALSE, FALSE)


class Observer:
    """The eyes of one requirement or assumption, whose name keeps its bits and watches apart from those of others."""

    def __init__(self, moment: Moment, name: str) -> None:
        self.moment, self.name = moment, name

    @property
    def system(self) -> System:
        return self.moment.system

    @property
    def aig(self) -> Aig:
        return self.moment.system.aig

    @property
    def first(self) -> Lit:
        return self.moment.system.first

    def see(self, expr: Expr | None) -> Seen:
        """What the expression is at the moment and after it; nothing (None) is never so."""
        if expr is None:
            return NEVER
        store = Store(self.system)
        at = self._evaluate(expr, store, self.first)
        after = at
        if any(isinstance(e, Edge | Previous) for e in subexpressions(expr)):
            store = Store(self.system, store)
            after = self._evaluate(expr, store, TRUE)  # between moments what was is what is
        store.close()
        return Seen(at, after)

    def _evaluate(self, expr: Expr, store: Store, first: Lit) -> Lit:
        moment = self.moment
        return Evaluator(moment.forms, store, moment.settled.signals, TRUE, moment.program, first).value(expr)

    def remember(self, what: str, following: Lit) -> Lit:
        """The value that `following` had in the moment before (false before time 0)."""
        return self.system.memory(f"{self.name}:{what}", following)

    def bit(self, what: str) -> Lit:
        """As `remember`, for a bit whose following value depends on itself: `keep` states it later."""
        return self.system.bit(f"{self.name}:{what}").now

    def keep(self, what: str, following: Lit) -> None:
        self.system.bits[f"{self.name}:{what}"].next = following

    def watch(self, what: str, time: Micros) -> Watch:
        return self.system.watch(f"{self.name}:{what}", time)

    # connectives of what is seen

    def both(self, x: Seen, y: Seen) -> Seen:
        return Seen(self.aig.both(x.at, y.at), self.aig.both(x.after, y.after))

    def either(self, x: Seen, y: Seen) -> Seen:
        return Seen(self.aig.either(x.at, y.at), self.aig.either(x.after, y.after))

    def sometime(self, x: Seen) -> Lit:
        """At the moment or after it."""
        return self.aig.either(x.at, x.after)
