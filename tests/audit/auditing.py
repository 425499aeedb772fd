"""What the tests of the audit share: every proof of a program with its question, as the audit gets it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import pytest

from logiccheck.audit.certificate import Certificate, Clause
from logiccheck.audit.check import Audit, Refusal
from logiccheck.audit.relation import Apart, Question
from logiccheck.base.budget import Budget
from logiccheck.engine import certify
from logiccheck.engine.check import check_program
from logiccheck.engine.cone import Cone
from logiccheck.engine.portfolio import Proof
from logiccheck.engine.refine import TimedProof
from logiccheck.engine.verdict import Check
from logiccheck.lang.program import Program

SECONDS = 5.0


@dataclass(frozen=True)
class Seen:
    """One look of the audit; `cone` and `timed` are what the search handed in (None: every memory settles; or the proof
    is not one of refinement alone)."""

    audit: Audit
    question: Question | Apart
    certificate: Certificate
    refusal: Refusal | None
    cone: Cone | None = None
    timed: TimedProof | None = None

    @property
    def settling(self) -> tuple[Clause, ...]:
        """What was known of how moments settle."""
        return self.audit._settling or ()


@dataclass
class Watched:
    """Checks programs, and keeps what the audit saw in each."""

    seen: list[Seen] = field(default_factory=list)
    _handed: list[tuple[Cone, TimedProof | None]] = field(default_factory=list)

    def check(self, program: Program) -> Check:
        self.seen.clear()
        return check_program(program, SECONDS)


@pytest.fixture
def watched(monkeypatch: pytest.MonkeyPatch) -> Watched:
    """A watch over the audit while programs are checked."""
    found = Watched()
    doubt, named = Audit._doubt, certify.certificate

    def handed(cone: Cone, proofs: Sequence[Proof]) -> Certificate:
        first = proofs[0] if len(proofs) == 1 else None
        found._handed.append((cone, first if isinstance(first, TimedProof) else None))
        return named(cone, proofs)

    def doubted(
        self: Audit, question: Question, certificate: Certificate, settling: tuple[Clause, ...], budget: Budget
    ) -> Refusal | None:
        refusal = doubt(self, question, certificate, settling, budget)
        cone, timed = found._handed.pop() if found._handed else (None, None)
        found.seen.append(Seen(self, question, certificate, refusal, cone, timed))
        return refusal

    monkeypatch.setattr(certify, "certificate", handed)
    monkeypatch.setattr(Audit, "_doubt", doubted)
    return found
