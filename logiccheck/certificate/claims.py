"""One claim of a certificate judged, from the rules alone: that something never happens, or that it can.

A claim of "never" is inductive: its clauses hold before time 0, each moment keeps them, and none in which they hold
does what never happens. That each moment settles comes first, for all else rests on it.
Reference: A. Bradley, "SAT-based model checking without unrolling", VMCAI 2011 (inductive invariants).
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from typing import assert_never

from logiccheck.audit.certificate import Certificate, Clause, Cover
from logiccheck.audit.check import Flaw
from logiccheck.audit.covers import at_the_start, well_made
from logiccheck.audit.gates import YES, Lit
from logiccheck.audit.given import LineName
from logiccheck.audit.relation import Relation, Stuck, Unsettled
from logiccheck.audit.step import known
from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.certificate.document import Claim, Subject, Within, meant
from logiccheck.certificate.judged import Fault, Judged, State
from logiccheck.certificate.reals import RealMoment, Run, Step
from logiccheck.lang.program import Program

MOST_MOVES = 10_000  # moments of all plans that a claim about time may name
MORE_MOMENTS = 12  # of a story, beyond those claimed, in which only a time is over
MOMENTS_TOGETHER = 5  # of the stories in which all that can happen is looked for at once


class Claims:
    """Judges the claims of one program one by one, each within `seconds`; that moments settle has to come first."""

    def __init__(self, program: Program, repeats: int, seconds: float) -> None:
        self.program, self.seconds = program, seconds
        self.relation = Relation(program, repeats)
        self._moment = RealMoment(self.relation, "", {})
        self._settling: tuple[Clause, ...] | None = None
        self._shown: frozenset[Lit] | None = None

    def judge(self, claim: Claim) -> Judged:
        """May raise KeyboardInterrupt."""
        try:
            return self._judge(claim)
        except OutOfTime:
            return Judged(claim.subject, State.OPEN)
        except MemoryError:
            return Judged(claim.subject, State.FULL)

    def _judge(self, claim: Claim) -> Judged:
        match claim.proof:
            case Certificate():
                return self._never(claim.subject, claim.proof)
            case Within(moments):
                return self._happens(claim.subject, moments)
            case _:
                assert_never(claim.proof)

    def begins(self) -> bool:
        """Whether some world meets at time 0 all that is given. May raise OutOfTime, or MemoryError."""
        run = Run(self.relation, list(self.relation.lines.values()), [])
        run.extend()
        return bool(run.shows([YES], Budget(self.seconds)))

    def demanding(self) -> frozenset[LineName]:
        """The lines of what is given by which time could come to a stop."""
        return self.relation.demanding()

    def lit(self, subject: Subject) -> Lit | None:
        """The condition that is meant; None if the rules have nothing of that name."""
        question = meant(subject, self.program)
        try:
            return self.relation.happens(question) if question is not None else None
        except (IndexError, KeyError):  # of a case, an output, a variable, a line
            return None

    # never

    def _never(self, subject: Subject, proof: Certificate) -> Judged:
        wrong = self._unlike(subject, proof)
        happens = self.lit(subject) if wrong is None else None
        if happens is None:
            return Judged(subject, State.REFUSED, wrong or Fault.STRANGE)
        settles = isinstance(meant(subject, self.program), Unsettled)
        if self._settling is None and not settles:
            return Judged(subject, State.BASELESS)
        unnamed = next((c for c in proof.clauses for name, _ in c if not known(self.relation, name)), None)
        names = all(known(self.relation, name) for name in proof.names()) and all(map(well_made, proof.covers))
        if not names or not proof.lines <= self.relation.lines.keys():
            return Judged(subject, State.REFUSED, Flaw.NAMES, unnamed)
        initial = next((c for c in proof.clauses if all(positive for _, positive in c)), None)
        if initial is not None or not all(map(at_the_start, proof.covers)):
            return Judged(subject, State.REFUSED, Flaw.INITIATION, initial)
        judged = self._inductive(subject, proof, happens)
        if settles and judged.state is State.HOLDS:
            self._settling = proof.clauses
        return judged

    def _unlike(self, subject: Subject, proof: Certificate) -> Flaw | Fault | None:
        """What is wrong with a claim about time before it is looked at: its lines are what it is about."""
        question = meant(subject, self.program)
        if not isinstance(question, Stuck):
            return None
        if not self.relation.planned(question) or not question.lines <= self.relation.lines.keys():
            return Fault.STRANGE
        if proof.lines:
            return Flaw.GRANTED
        if sum(map(len, question.plans)) > MOST_MOVES:
            return Fault.TOO_MANY
        return None if self.relation.whole(question) else Flaw.LINES

    def _inductive(self, subject: Subject, proof: Certificate, happens: Lit) -> Judged:
        budget = Budget(self.seconds)
        meets = [self.relation.lines[line] for line in sorted(proof.lines, key=str)]
        step = Step(self._moment, happens, meets, dict.fromkeys(proof.names()))
        step.assume(proof.clauses)
        step.assume_covers(proof.covers)
        step.assume(clause for clause in self._settling or () if step.speaks_of(clause))
        if step.possible(step.happens, budget) is not None:
            return Judged(subject, State.REFUSED, Flaw.SAFETY)
        left = step.breaks(proof.clauses, proof.covers, budget)
        if left is not None:
            return Judged(subject, State.REFUSED, Flaw.CLOSURE, None if isinstance(left, Cover) else left)
        return Judged(subject, State.HOLDS)

    # it can happen

    def look_together(self, subjects: Sequence[Subject]) -> None:
        """Looks for all of these at once in short stories of the whole; what is not found is looked for by itself."""
        left = {lit for lit in map(self.lit, subjects) if lit is not None}
        self._shown = frozenset()
        with suppress(OutOfTime, MemoryError):
            run, budget = Run(self.relation, list(self.relation.lines.values()), sorted(left)), Budget(self.seconds)
            for _ in range(MOMENTS_TOGETHER):
                run.extend()
                while more := run.shows(sorted(left - self._shown), budget) if left - self._shown else frozenset():
                    self._shown |= more

    def _happens(self, subject: Subject, moments: int) -> Judged:
        lit = self.lit(subject)
        if lit is None:
            return Judged(subject, State.REFUSED, Fault.STRANGE)
        if self._settling is None:
            return Judged(subject, State.BASELESS)
        if self._shown is not None and lit in self._shown:
            return Judged(subject, State.HOLDS)
        run, budget = Run.touched(self.relation, lit), Budget(self.seconds)
        for k in range(moments + MORE_MOMENTS):
            run.extend()
            if k + 1 >= moments and run.shows([lit], budget):
                return Judged(subject, State.HOLDS)
        return Judged(subject, State.REFUSED, Fault.NO_STORY)
