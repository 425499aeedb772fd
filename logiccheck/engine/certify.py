"""Hands every proof to the audit, in names only, and lets none pass that it refuses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TypeAlias

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Name
from logiccheck.audit.check import Audit, Refusal
from logiccheck.audit.given import LineName
from logiccheck.audit.grounds import Happens, Never
from logiccheck.audit.relation import Apart, Broken, Occurs, Question, Shorted, Stuck, TurnsOn, Unsettled
from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.courses import Plan
from logiccheck.engine.portfolio import Proof
from logiccheck.engine.question import Question as Asked
from logiccheck.engine.refine import TimedProof
from logiccheck.engine.sat import Sat
from logiccheck.engine.settle import never_together
from logiccheck.engine.zones.covering import cover
from logiccheck.engine.zones.decide import Covered
from logiccheck.lang.program import Program, Requirement, Signal
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.system import Line

SOLVER = "glucose4"  # the searches use others


class ProofRefused(Exception):
    """Our own proof did not pass the audit: a mistake in this program, never a verdict."""


Doubt: TypeAlias = Callable[[Cone, Sequence[Proof], Budget], None]
"""Takes the proofs of all parts of "the bad thing of a cone never happens" (none: it is constantly false). Raises
ProofRefused, or OutOfTime."""


class Doubts:
    """The audit of one program, for moments with as many repeats as this one has; it remembers what it accepted."""

    def __init__(self, program: Program, moment: Moment) -> None:
        self.program = program
        self.repeats = len(moment.reactions) - 1
        self._audit = Audit(program, self.repeats, lambda: Sat(SOLVER))
        self._found: list[Never | Happens] = []

    def taken(self) -> tuple[Never | Happens, ...]:
        """What was proved and shown since this was last asked."""
        found = tuple(self._found)
        self._found.clear()
        return found

    def ask_also(self, requirement: Requirement) -> None:
        """Proofs about this requirement, too, will be doubted."""
        self._audit.relation.ask_also(requirement)

    def shown(self, asked: Asked, number: int | None, moments: int) -> None:
        """A story of at most so many moments shows what is `possible` (None), or one of the cases."""
        question = Broken(asked.requirement) if number is None else self._case(asked, number)
        self._found.append(Happens(question, moments))

    def settling_always(self, moment: Moment, budget: Budget) -> None:
        """Every moment settles, whatever is stored before it."""
        always = Certificate(_always_so(moment))
        self._accept(Unsettled(), always, self._audit.settles(always, budget))

    def settling(self, moment: Moment) -> Doubt:
        """No moment that can be reached fails to settle."""

        def doubt(cone: Cone, proofs: Sequence[Proof], budget: Budget) -> None:
            found = certificate(cone, proofs)
            whole = replace(found, clauses=(*found.clauses, *_always_so(moment)))
            self._accept(Unsettled(), whole, self._audit.settles(whole, budget))

        return doubt

    def suppose_settled(self) -> None:
        """It is known, or not decided, that some moment may not settle: no verdict will rest on a proof."""
        self._audit.suppose_settled()

    def broken(self, asked: Asked) -> Doubt:
        """The requirement is never broken; what is `possible` never happens."""
        return self._of(Shorted() if asked.builtin else Broken(asked.requirement))

    def case(self, asked: Asked, number: int) -> Doubt:
        """One of its cases never occurs."""
        return self._of(self._case(asked, number))

    def apart(self, asked: Asked, told: Cone) -> Doubt:
        """The requirement is never broken (what is `possible` never happens) without a coincidence of what counts in
        stories on this cone. No verdict rests on that, and so it is not kept."""
        what = Shorted() if asked.builtin else Broken(asked.requirement)
        question = Apart(what, frozenset(told.world), frozenset(clock.key for clock in told.clocks))

        def doubt(cone: Cone, proofs: Sequence[Proof], budget: Budget) -> None:
            found = certificate(cone, proofs)
            so_far = tuple((*clause, (question.bit, True)) for clause in found.clauses)
            self._pass(question, self._audit.check(question, replace(found, clauses=so_far), budget))

        return doubt

    def stuck(self, plans: Iterable[Plan], lines: Iterable[Line]) -> Doubt:
        """What is given by these lines always leaves a way on: to stay, or one of the plans."""
        return self._of(Stuck(tuple(plan.moments for plan in plans), _names_of(lines)))

    def nothing_else_stops(self, unproved: Iterable[Line]) -> None:
        """Of all lines but these it was shown that they stop no time."""
        left_out = self._audit.nothing_else_stops(_names_of(unproved))
        if left_out is not None:
            raise ProofRefused(f"time: {left_out.flaw.value}")

    def _of(self, question: Question) -> Doubt:
        def doubt(cone: Cone, proofs: Sequence[Proof], budget: Budget) -> None:
            named = certificate(cone, proofs)
            self._accept(question, named, self._audit.check(question, named, budget))

        return doubt

    @staticmethod
    def _case(asked: Asked, number: int) -> Occurs | TurnsOn:
        if number < len(asked.breach.cases):
            return Occurs(asked.requirement, number)
        part = asked.cases[number].part
        assert isinstance(part, Signal)
        return TurnsOn(asked.requirement, part.name)

    def _accept(self, question: Question, named: Certificate, refusal: Refusal | None) -> None:
        self._pass(question, refusal)
        self._found.append(Never(question, named))

    @staticmethod
    def _pass(question: Question | Apart, refusal: Refusal | None) -> None:
        if refusal is not None:
            raise ProofRefused(f"{question}: {refusal.flaw.value} {refusal.clause or ''}")


def _names_of(lines: Iterable[Line]) -> frozenset[LineName]:
    return frozenset(line.name for line in lines)


def _always_so(moment: Moment) -> tuple[Clause, ...]:
    return tuple(((one, False), (other, False)) for one, other in never_together(moment))


def certificate(cone: Cone, proofs: Sequence[Proof]) -> Certificate:
    """The clauses and covers of proofs about a cone and its parts, and what is given as far as the cone holds it."""
    clauses = tuple(clause for proof in proofs if isinstance(proof, TimedProof) for clause in _clauses(proof))
    return Certificate(
        clauses, _names_of(cone.lines), tuple(cover(proof) for proof in proofs if isinstance(proof, Covered))
    )


def _clauses(timed: TimedProof) -> Iterator[Clause]:
    names = _names(timed)
    for cube in timed.proof.cubes:
        yield tuple((names[abs(x)], x < 0) for x in sorted(cube, key=abs))


def _names(timed: TimedProof) -> dict[Node, Name]:
    tracked = timed.tracked
    names: dict[Node, Name] = {bit.now >> 1: bit.name for bit in tracked.cone.bits}
    for (i, j, bound), bits in tracked.bits.items():
        timer, other = tracked.clocks[i].key, None if j == tracked.now else tracked.clocks[j].key
        names[bits.more >> 1] = Ahead(timer, other, bound, or_same=False)
        names[bits.least >> 1] = Ahead(timer, other, bound, or_same=True)
    return names
