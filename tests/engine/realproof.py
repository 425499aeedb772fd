"""Whether a proof is a proof, by a solver that knows real numbers: every deadline is one, and nothing is lazy.

Only the exact cone is read and what the bits of predicates are said to mean, none of the rules by which they move. A
state is the bits, the time of the last moment, and for each clock the deadline of its run, which lies after that moment
by no more than its longest time.
"""

from __future__ import annotations

from dataclasses import dataclass

import z3

from logiccheck.engine.cone import Cone
from logiccheck.engine.pdr import Cube
from logiccheck.engine.refine import TimedProof
from logiccheck.model.circuit.aig import Lit, Node


@dataclass(frozen=True)
class Side:
    """Before or after a step: which clocks run, their deadlines, and the time of the moment last seen."""

    runs: list[z3.BoolRef]
    deadlines: list[z3.ArithRef]
    moment: z3.ArithRef


class RealStep:
    """One step of an exact cone, from any state that no cube of the proof holds in."""

    def __init__(self, base: Cone, timed: TimedProof) -> None:
        self.base, self.tracked, self.cubes = base, timed.tracked, timed.proof.cubes
        self.values: dict[Node, z3.BoolRef] = {0: z3.BoolVal(False)}
        for node in base.order:
            pair = base.aig.operands[node]
            self.values[node] = z3.Bool(f"n{node}") if pair is None else z3.And(*map(self.lit, pair))
        last, this = z3.Reals("last this")
        before = [z3.Real(f"d{i}") for i in range(len(base.clocks))]
        after = [z3.Real(f"e{i}") for i in range(len(base.clocks))]
        self.before = Side([self.lit(c.run) for c in base.clocks], before, last)
        self.after = Side([self.lit(c.run_next) for c in base.clocks], after, this)
        self.goes_on = [z3.And(self.lit(c.run_next), z3.Not(self.lit(c.start))) for c in base.clocks]
        self.bits = {bit.now >> 1: bit for bit in base.bits}
        self.meaning = {
            lit >> 1: (p, more)
            for p in self.tracked.predicates
            for lit, more in ((self.tracked.bits_of(p).more, True), (self.tracked.bits_of(p).least, False))
        }
        self.solver = z3.Solver()
        self.solver.add([self.lit(c.lit) for c in base.constraints])
        self.solver.add(this > last)
        for i in range(len(base.clocks)):
            self._clock(i)
        self.solver.add([z3.Not(self.cube(cube, self.before)) for cube in self.cubes])

    def _clock(self, i: int) -> None:
        clock, old, new = self.base.clocks[i], self.before.deadlines[i], self.after.deadlines[i]
        last, this, run = self.before.moment, self.after.moment, self.before.runs[i]
        self.solver.add(z3.Implies(run, z3.And(last < old, old <= last + clock.hi, this <= old)))
        self.solver.add(z3.Implies(run, self.lit(clock.due) == (this == old)))
        self.solver.add(
            z3.Implies(self.lit(clock.start), z3.And(this + clock.lo <= new, new <= this + clock.hi)),
        )
        self.solver.add(z3.Implies(self.goes_on[i], new == old))

    def lit(self, lit: Lit) -> z3.BoolRef:
        value = self.values[lit >> 1]
        return z3.Not(value) if lit & 1 else value

    def cube(self, cube: Cube, side: Side) -> z3.BoolRef:
        """The cube holds on this side of the step."""
        return z3.And([self._literal(abs(x), side) if x > 0 else z3.Not(self._literal(abs(x), side)) for x in cube])

    def _literal(self, node: Node, side: Side) -> z3.BoolRef:
        if node not in self.meaning:
            bit = self.bits[node]
            return self.lit(bit.now if side is self.before else bit.next)
        (i, j, bound), more = self.meaning[node]
        now = len(self.base.clocks)
        difference = side.deadlines[i] - (side.moment if j == now else side.deadlines[j])
        running = [side.runs[x] for x in (i, j) if x != now]
        return z3.And(*running, difference > bound if more else difference >= bound)

    def possible(self, what: z3.BoolRef) -> bool:
        """Whether some step does this."""
        self.solver.push()
        self.solver.add(what)
        answer = self.solver.check()
        self.solver.pop()
        assert answer != z3.unknown
        return bool(answer == z3.sat)

    def goes_on_out_of_nothing(self) -> bool:
        """Whether a clock can go on that did not run, or that is due."""
        wrong = [
            z3.And(on, z3.Or(z3.Not(run), self.lit(clock.due)))
            for on, run, clock in zip(self.goes_on, self.before.runs, self.base.clocks, strict=True)
        ]
        return self.possible(z3.Or(wrong))


def is_proof(base: Cone, timed: TimedProof) -> bool:
    """No cube holds at the start (where every bit is false and nothing runs), none is entered from outside all of them,
    and outside nothing bad happens."""
    if any(all(x < 0 for x in cube) for cube in timed.proof.cubes):
        return False
    step = RealStep(base, timed)
    if step.possible(step.lit(base.bad)):
        return False
    return not step.possible(z3.Or([step.cube(cube, step.after) for cube in timed.proof.cubes]))
