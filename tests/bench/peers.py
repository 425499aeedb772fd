"""The same questions put to z3: its fixed-point engine, and its solver on ever longer sequences of moments.

Both are given the cone that our own search is given, every watch made a clock. A state is the stored bits and, of each
clock, how long it still has (real seconds; 0 while it does not run). Before each moment but the first some time
passes, more than none and no more than any running clock still has; a clock falls due exactly when nothing is left; one
that begins anew may have anything in its window left. References: K. Hoder, N. Bjorner, "Generalized property directed
reachability", SAT 2012; A. Biere, A. Cimatti, E. Clarke, Y. Zhu, "Symbolic model checking without BDDs", TACAS 1999.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import z3

from logiccheck.engine.cone import Cone, exact
from logiccheck.model.circuit.aig import Lit, Node

SECOND = 1_000_000


@dataclass(frozen=True, slots=True)
class Answer:
    """`happens`: None when not decided. `seconds`: wall time, what it takes to write the question down included."""

    happens: bool | None
    seconds: float


class Moment:
    """One moment of a cone as z3 terms: what holds in it, and the state after it."""

    def __init__(self, cone: Cone, before: Mapping[str, Any], suffix: str) -> None:
        self.cone = cone
        self.value: dict[Node, Any] = {bit.now >> 1: before[bit.name] for bit in cone.bits}
        self.inputs = [z3.Bool(f"i{node}{suffix}") for node in cone.inputs]
        self.value |= dict(zip(cone.inputs, self.inputs, strict=True))
        for node in cone.order:
            pair = cone.aig.operands[node]
            if pair is not None:
                self.value[node] = z3.And(self.term(pair[0]), self.term(pair[1]))
        self.passed = z3.Real(f"passed{suffix}")
        self.fresh = {clock.key: z3.Real(f"fresh {clock.key}{suffix}") for clock in cone.clocks}
        self.free = [*self.inputs, self.passed, *self.fresh.values()]
        self.holds = [self.term(c.lit) for c in cone.constraints] + self._time(before)
        self.bad = self.term(cone.bad)
        self.after = {bit.name: self.term(bit.next) for bit in cone.bits}
        for clock in cone.clocks:
            left = z3.If(self.term(clock.start), self.fresh[clock.key], before[f"{clock.key} left"] - self.passed)
            self.after[f"{clock.key} left"] = z3.If(self.term(clock.run_next), left, z3.RealVal(0))

    def term(self, lit: Lit) -> Any:
        value = self.value[lit >> 1] if lit > 1 else z3.BoolVal(False)
        return z3.Not(value) if lit & 1 else value

    def _time(self, before: Mapping[str, Any]) -> list[Any]:
        begun = before.get("begun")
        holds = [] if begun is None else [z3.If(begun, self.passed > 0, self.passed == 0)]
        holds.append(self.passed >= 0)
        for clock in self.cone.clocks:
            left, run, due = before[f"{clock.key} left"], self.term(clock.run), self.term(clock.due)
            fresh = self.fresh[clock.key]
            holds += [z3.Implies(run, self.passed <= left), due == z3.And(run, self.passed == left)]
            holds += [fresh >= z3.Q(clock.lo, SECOND), fresh <= z3.Q(clock.hi, SECOND)]
        return holds


def _state(cone: Cone, suffix: str) -> dict[str, Any]:
    bits = {bit.name: z3.Bool(f"{bit.name}{suffix}") for bit in cone.bits}
    return bits | {f"{clock.key} left": z3.Real(f"{clock.key} left{suffix}") for clock in cone.clocks}


def _at_first(cone: Cone) -> dict[str, Any]:
    bits = {bit.name: z3.BoolVal(False) for bit in cone.bits}
    return bits | {f"{clock.key} left": z3.RealVal(0) for clock in cone.clocks}


def fixed_point(cone: Cone, limit: float) -> Answer:
    """z3's fixed-point engine (Spacer) on the cone, with a limit in seconds."""
    begin = time.perf_counter()
    full = _begun(cone)
    engine = z3.Fixedpoint()
    engine.set(engine="spacer", timeout=int(limit * 1000))
    state = _state(full, "")
    order = list(state)
    reached = z3.Function("reached", *(state[name].sort() for name in order), z3.BoolSort())
    wrong = z3.Function("wrong", z3.BoolSort())
    engine.register_relation(reached, wrong)
    moment = Moment(full, state, "")
    engine.declare_var(*state.values(), *moment.free)
    first = _at_first(full)
    engine.rule(reached(*(first[name] for name in order)))
    body = [reached(*(state[name] for name in order)), *moment.holds]
    engine.rule(reached(*(moment.after[name] for name in order)), body)
    engine.rule(wrong(), [*body, moment.bad])
    try:
        found = engine.query(wrong())
    except z3.Z3Exception:  # "canceled": out of time
        found = z3.unknown
    answer = None if found == z3.unknown else found == z3.sat
    return Answer(answer, time.perf_counter() - begin)


def bounded(cone: Cone, limit: float, depth: int | None = None) -> Answer:
    """z3's solver on one moment, two moments, ... (up to `depth`): it finds stories, and can prove nothing."""
    begin = time.perf_counter()
    full = _begun(cone)
    solver = z3.SolverFor("QF_LRA")
    state = _at_first(full)
    count = 0
    while count != depth and (left := limit - (time.perf_counter() - begin)) > 0:
        moment = Moment(full, state, f"@{count}")
        solver.add(*moment.holds)
        state = _state(full, f"@{count} after")
        solver.add(*(state[name] == moment.after[name] for name in state))
        solver.set("timeout", max(1, int(left * 1000)))
        if solver.check(moment.bad) == z3.sat:
            return Answer(True, time.perf_counter() - begin)
        count += 1
    return Answer(None, time.perf_counter() - begin)


def _begun(cone: Cone) -> Cone:
    """The exact cone, in which the first moment can be told from the others."""
    full = exact(cone)
    begun = cone.system.bits["begun"]
    if all(bit is not begun for bit in full.bits):
        full.bits.append(begun)
        full.arrange()
    return full
