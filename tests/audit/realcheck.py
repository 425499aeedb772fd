"""Whether a certificate is one, by a solver that knows real numbers, on the circuit of the search: nothing of the audit
is used but the names."""

from __future__ import annotations

from dataclasses import replace

import z3

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Name
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.pdr import Proof
from logiccheck.engine.refine import TimedProof
from tests.engine.realproof import RealStep, Side


class RealCheck(RealStep):
    """One step of the exact cone from any state in which all clauses hold, and what else is known of the memory."""

    def __init__(self, cone: Cone, timed: TimedProof, certificate: Certificate, settling: tuple[Clause, ...]) -> None:
        super().__init__(exact(cone), replace(timed, proof=Proof(())))
        self.by_name = {bit.name: bit for bit in self.base.bits}
        self.number = {clock.key: i for i, clock in enumerate(self.base.clocks)}
        for clause in (*certificate.clauses, *settling):
            if all(isinstance(name, Ahead) or name in self.by_name for name, _ in clause):
                self.solver.add(self.clause(clause, self.before))
        self._was_a_world()

    def _was_a_world(self) -> None:
        """The places stored as digits after time 0 are places of their variables."""
        for name, coded in self.base.system.world.coded.items():
            names = [f"{name}.{k} was" for k, _ in enumerate(coded.bits)]
            if all(bit in self.by_name for bit in names):
                digits = [self.named(bit, self.before) for bit in names]
                places = [z3.And([d == bool(i >> k & 1) for k, d in enumerate(digits)]) for i in coded.legal]
                self.solver.add(z3.Or(z3.Not(self.named("begun", self.before)), *places))

    def clause(self, clause: Clause, side: Side) -> z3.BoolRef:
        return z3.Or([self.named(name, side) if sign else z3.Not(self.named(name, side)) for name, sign in clause])

    def named(self, name: Name, side: Side) -> z3.BoolRef:
        if not isinstance(name, Ahead):
            bit = self.by_name[name]
            return self.lit(bit.now if side is self.before else bit.next)
        timers = [self.number[key] for key in (name.timer, name.other) if key is not None]
        other = side.moment if name.other is None else side.deadlines[self.number[name.other]]
        difference = side.deadlines[timers[0]] - other
        more = difference >= name.bound if name.or_same else difference > name.bound
        return z3.And(*(side.runs[i] for i in timers), more)


def holds(cone: Cone, timed: TimedProof, certificate: Certificate, settling: tuple[Clause, ...]) -> bool:
    """Every clause at the start, every clause after any step, and nothing bad in any step."""
    if any(all(sign for _, sign in clause) for clause in certificate.clauses):
        return False
    step = RealCheck(cone, timed, certificate, settling)
    if step.possible(step.lit(step.base.bad)):
        return False
    return not any(step.possible(z3.Not(step.clause(clause, step.after))) for clause in certificate.clauses)
