"""A proof looked at again, from nothing, by another SAT solver: it holds initially, is kept by every moment, and is
safe.

None of the update rules of the refinement is used: a predicate is replaced by what it means of real deadlines, before
and after one step, and SAT is asked for a step of the exact cone whose differences can hold together.
Reference: the three conditions of an inductive invariant, as in Bradley, "SAT-based model checking without unrolling",
2011.
"""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.certify import ProofRefused
from logiccheck.engine.cone import Cone
from logiccheck.engine.deadlines import Label, Predicate
from logiccheck.engine.portfolio import Proof
from logiccheck.engine.refine import TimedProof
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.steps import Difference, Doing, clock_differences, conflict, predicate_differences
from logiccheck.model.circuit.aig import Node


def looked_at_again(cone: Cone, proofs: Sequence[Proof], budget: Budget) -> None:
    """The doubt of what the audit has nothing to say of: what is true only beside lines that contradict each other, or
    of a vehicle that may fail to settle. It knows refinement alone. Raises ProofRefused, or OutOfTime."""
    for proof in proofs:
        if not isinstance(proof, TimedProof) or not proof_holds(proof.tracked.cone, proof, budget):
            raise ProofRefused("the search does not stand by it")


def proof_holds(base: Cone, timed: TimedProof, budget: Budget) -> bool:
    """Whether no blocked cube holds at the start, none is entered from outside all of them, and none bad is left.

    `base` is the exact cone, without predicates. May raise OutOfTime.
    """
    cubes = timed.proof.cubes
    if any(all(x < 0 for x in cube) for cube in cubes):
        return False
    step = _Step(base, timed, budget)
    try:
        for cube in cubes:
            step.sat.add([-step.literal(x, False) for x in cube])
        if step.possible([step.circuit.lit(base.bad)]):
            return False
        return not any(step.possible([step.literal(x, True) for x in cube]) for cube in cubes)
    finally:
        step.sat.close()


@frozen
class _Atom:
    """A bit of a predicate before or after the step: `lit` holds when both clocks run and the free `bound` bit is
    true."""

    predicate: Predicate
    after: bool
    more: bool
    free: int
    lit: int


class _Step:
    """One step of an exact cone in a solver, its differences checked against each model."""

    def __init__(self, base: Cone, timed: TimedProof, budget: Budget) -> None:
        self.base, self.tracked, self.budget = base, timed.tracked, budget
        self.sat = Sat("glucose4")
        self.circuit = circuit = Circuit(self.sat, Template(base.aig, base.order))
        for constraint in base.constraints:
            self.sat.add([circuit.lit(constraint.lit)])
        self.bit = {bit.now >> 1: bit for bit in base.bits}
        clocks = base.clocks
        self.run = [circuit.lit(c.run) for c in clocks]
        self.due = [self.sat.both(circuit.lit(c.run), circuit.lit(c.due)) for c in clocks]
        self.start = [circuit.lit(c.start) for c in clocks]
        self.goes_on = [self.sat.both(circuit.lit(c.run_next), -circuit.lit(c.start)) for c in clocks]
        self.run_next = [circuit.lit(c.run_next) for c in clocks]
        self.atoms: dict[tuple[Node, bool], _Atom] = {}
        for p in sorted(self.tracked.predicates):
            self._make_atoms(p)

    def _make_atoms(self, p: Predicate) -> None:
        bits = self.tracked.bits_of(p)
        for after in (False, True):
            runs = self.run_next if after else self.run
            for more, lit in ((True, bits.more), (False, bits.least)):
                free = self.sat.new()
                value = free
                for x in p[:2]:
                    if x != self.tracked.now:
                        value = self.sat.both(value, runs[x])
                self.atoms[lit >> 1, after] = _Atom(p, after, more, free, value)

    def literal(self, x: int, after: bool) -> int:
        """The solver literal of a cube's literal, before or after the step."""
        node = abs(x)
        if (node, after) in self.atoms:
            lit = self.atoms[node, after].lit
        else:
            lit = self.circuit.lit(self.bit[node].next if after else self.bit[node].now)
        return lit if x > 0 else -lit

    def possible(self, assumptions: list[int]) -> bool:
        """Whether some real step of the timed vehicle meets the assumptions."""
        while True:
            self.budget.check()
            if not self.sat.solve(assumptions):
                return False
            labels = conflict(self._differences())
            if labels is None:
                return True
            self.sat.add(sorted(-self._label(label) for label in labels))

    def _holding(self, lits: list[int]) -> frozenset[int]:
        return frozenset(i for i, lit in enumerate(lits) if self.sat.holds(lit))

    def _differences(self) -> list[Difference]:
        doing = Doing(*(self._holding(lits) for lits in (self.run, self.due, self.start, self.goes_on)))
        result = clock_differences(self.base.clocks, doing)
        for p in sorted(self.tracked.predicates):
            bits = self.tracked.bits_of(p)
            for after in (False, True):
                more, least = (self.sat.holds(self.atoms[lit >> 1, after].free) for lit in (bits.more, bits.least))
                result += predicate_differences(p, self.tracked.now, doing, after, more, least)
        return result

    def _label(self, label: Label) -> int:
        """The solver literal that makes a label true."""
        of = label.of
        if isinstance(of, int):
            lit = {"run": self.run, "due": self.due, "start": self.start, "goes on": self.goes_on}[label.kind][of]
        else:
            bits = self.tracked.bits_of(of)
            node = (bits.more if label.kind.startswith("more") else bits.least) >> 1
            lit = self.atoms[node, label.kind.endswith("next")].free
        return lit if label.positive else -lit
