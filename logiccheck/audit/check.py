"""Doubts a proof: do its clauses hold before time 0, does every moment keep them, and do they exclude what is asked.

Nothing of the search is believed but the clauses themselves. A moment is the one that this folder builds from the
resolved tree; a deadline is any real number in its window. SAT proposes a moment that breaks the proof, its differences
of times are looked at, and what cannot be is forbidden, until there is a real one or none.
References: A. Bradley, "SAT-based model checking without unrolling", VMCAI 2011 (inductive invariants); D. Dill,
"Timing assumptions and verification of finite-state concurrent systems", 1989 (difference bounds); L. de Moura,
H. Ruess, M. Sorea, "Lazy theorem proving for bounded model checking over infinite domains", CADE 2002.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from logiccheck.audit.certificate import Certificate, Clause
from logiccheck.audit.covers import at_the_start, well_made
from logiccheck.audit.given import LineName
from logiccheck.audit.relation import Apart, Question, Relation, Stuck, Unsettled
from logiccheck.audit.solver import Solvers
from logiccheck.audit.step import Step, known
from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program


class Flaw(Enum):
    NAMES = "it speaks of something that nothing stores"
    INITIATION = "a clause does not hold before time 0"
    CLOSURE = "a moment leads out of the clauses"
    SAFETY = "the clauses allow what they should exclude"
    SETTLING = "it is not shown that every moment settles"
    LINES = "it leaves out something given that matters"
    GRANTED = "it takes for granted what it should show"


@frozen
class Refusal:
    """Why a proof is none, and the clause that shows it, if it is one."""

    flaw: Flaw
    clause: Clause | None = None


class Audit:
    """Doubts the proofs of one program. That every moment settles has to be shown first: all else rests on it."""

    def __init__(self, program: Program, repeats: int, solvers: Solvers) -> None:
        self.relation = Relation(program, repeats)
        self.solvers = solvers
        self._settling: tuple[Clause, ...] | None = None
        self._stopping_nothing: set[LineName] = set()

    def settles(self, certificate: Certificate, budget: Budget) -> Refusal | None:
        """Whether the certificate shows that every moment settles; its clauses are known from then on."""
        refusal = self._doubt(Unsettled(), certificate, (), budget)
        if refusal is None:
            self._settling = certificate.clauses
        return refusal

    def suppose_settled(self) -> None:
        """What is found from now on holds only of stories in which every moment settles."""
        self._settling = ()

    def check(self, question: Question | Apart, certificate: Certificate, budget: Budget) -> Refusal | None:
        """What is wrong with the proof that this never happens; None if nothing is. May raise OutOfTime."""
        if self._settling is None:
            return Refusal(Flaw.SETTLING)
        refusal = self._doubt(question, certificate, self._settling, budget)
        if refusal is None and isinstance(question, Stuck):
            self._stopping_nothing |= question.lines
        return refusal

    def nothing_else_stops(self, unproved: Iterable[LineName]) -> Refusal | None:
        """Whether it was shown of every other line that it stops no time."""
        left = self.relation.demanding() - self._stopping_nothing - set(unproved)
        return Refusal(Flaw.LINES) if left else None

    def _doubt(
        self, question: Question | Apart, certificate: Certificate, settling: Iterable[Clause], budget: Budget
    ) -> Refusal | None:
        if isinstance(question, Stuck) and not self.relation.whole(question):
            return Refusal(Flaw.LINES)
        if isinstance(question, Stuck) and not self.relation.planned(question):
            return Refusal(Flaw.NAMES)
        if isinstance(question, Stuck) and certificate.lines:  # where they are met nothing is stuck
            return Refusal(Flaw.GRANTED)
        happens = self.relation.happens(question)
        unnamed = next((c for c in certificate.clauses for name, _ in c if not known(self.relation, name)), None)
        if unnamed is not None or not certificate.lines <= self.relation.lines.keys():
            return Refusal(Flaw.NAMES, unnamed)
        if not all(map(well_made, certificate.covers)) or not all(known(self.relation, n) for n in certificate.names()):
            return Refusal(Flaw.NAMES)
        for clause in certificate.clauses:
            if all(positive for _, positive in clause):
                return Refusal(Flaw.INITIATION, clause)
        if not all(map(at_the_start, certificate.covers)):
            return Refusal(Flaw.INITIATION)
        solver = self.solvers()
        try:
            step = Step(self.relation, solver, certificate, happens, budget)
            step.assume(certificate.clauses)
            step.assume_covers()
            step.assume(clause for clause in settling if step.speaks_of(clause))
            if step.possible([step.lit(happens)]):
                return Refusal(Flaw.SAFETY)
            left = step.left(certificate.clauses)
            if left is not None:
                return Refusal(Flaw.CLOSURE, left)
            if any(step.possible([-step.in_cover(cover)]) for cover in certificate.covers):
                return Refusal(Flaw.CLOSURE)
            return None
        finally:
            solver.close()
