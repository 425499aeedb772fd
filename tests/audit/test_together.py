"""Proofs that something takes a coincidence: claims that leave out what counts, or that are not so, are refused."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import pytest

from logiccheck.audit.certificate import Certificate
from logiccheck.audit.check import Audit, Flaw
from logiccheck.audit.relation import Apart, Broken
from logiccheck.base.budget import Budget
from logiccheck.engine.apart import happens_apart
from logiccheck.engine.certify import certificate
from logiccheck.engine.cone import Cone
from logiccheck.engine.decider import Asked, Decider
from logiccheck.engine.engines import BOTH
from logiccheck.engine.portfolio import Proof
from logiccheck.engine.sat import Sat
from logiccheck.lang.program import Program
from logiccheck.model.story import Answer
from tests.engine.asking import question, stories
from tests.oracle.loading import loaded

SECONDS = 60.0


def vehicle(requirement: str) -> Program:
    return loaded(
        f"""
vehicle "V"
world
    a contact
    b contact
    gear low | middle | high one by one
    at first a is off, b is off, gear is low
harness
    source plus
    wire a_wire from plus when a
    relay k coil on_delay(a_wire, 1 s)
requirements
    danger it {requirement}
"""
    )


@dataclass
class Claimed:
    """What is claimed of one program, and an audit of it that knows how moments settle."""

    audit: Audit
    question: Apart
    certificate: Certificate

    def flaw(self, question: Apart | None = None, certificate: Certificate | None = None) -> Flaw | None:
        refusal = self.audit.check(question or self.question, certificate or self.certificate, Budget(SECONDS))
        return None if refusal is None else refusal.flaw


def auditor(program: Program) -> Audit:
    """An audit that knows how moments settle."""
    questions, _ = question(program, "it")
    audit = Audit(program, len(questions.moment.reactions) - 1, lambda: Sat("glucose4"))
    assert audit.settles(Certificate(), Budget(SECONDS)) is None
    return audit


def claimed(program: Program) -> Claimed:
    """Of the only story of the program, which takes a coincidence."""
    (found,) = stories(program)
    taken: list[Certificate] = []

    def doubt(cone: Cone, proofs: Sequence[Proof], budget: Budget) -> None:
        taken.append(certificate(cone, proofs))

    answer, _ = happens_apart(found.cone, found.story, True, Budget(SECONDS), doubt)
    assert answer is Answer.NO
    what = Broken(found.question.requirement)
    asked = Apart(what, frozenset(found.cone.world), frozenset(clock.key for clock in found.cone.clocks))
    so_far = tuple((*clause, (asked.bit, True)) for clause in taken[0].clauses)
    return Claimed(auditor(program), asked, replace(taken[0], clauses=so_far))


TAKES_ONE = [
    "never a becomes on and b becomes on",
    "never k becomes on and b becomes on",
    "never k becomes on and gear becomes high",
    "possible k becomes on and b becomes on",
    "never rises(k) and falls(b)",
]


@pytest.mark.parametrize("requirement", TAKES_ONE)
def test_what_takes_a_coincidence(requirement: str) -> None:
    """The proof passes; not where nothing counts as one, and not without what it says."""
    claim = claimed(vehicle(requirement))
    assert claim.flaw() is None
    nothing = replace(claim.question, world=frozenset(), timers=frozenset())
    assert claim.flaw(nothing) in (Flaw.SAFETY, Flaw.CLOSURE)
    assert claim.flaw(certificate=Certificate()) is Flaw.SAFETY


def test_what_falls_due_counts_only_where_it_is_named() -> None:
    """The relay closes when its timer falls due: a claim that says nothing of timers is refused."""
    claim = claimed(vehicle("never k becomes on and b becomes on"))
    assert claim.flaw(replace(claim.question, timers=frozenset())) is Flaw.SAFETY
    assert claim.flaw(replace(claim.question, world=frozenset({"a"}))) is Flaw.SAFETY


def test_what_can_happen_apart() -> None:
    """No clause, and so no proof, shows that it cannot."""
    claim = claimed(vehicle("never a becomes on and b becomes on"))
    other = vehicle("never a and b")
    asked = replace(claim.question, what=Broken(other.requirements[0]))
    refusal = auditor(other).check(asked, Certificate(), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.SAFETY


def test_what_hands_do_at_time_0_is_no_coincidence() -> None:
    """Both may be on from the start."""
    program = loaded(
        """
vehicle "V"
world
    a contact
    b contact
requirements
    danger it never a and b
"""
    )
    asked = Apart(Broken(program.requirements[0]), frozenset("ab"), frozenset())
    refusal = auditor(program).check(asked, Certificate(((("begun", False), (asked.bit, True)),)), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.SAFETY


def test_the_search_hands_it_to_the_audit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each such claim is doubted, and none is kept."""
    asked: list[object] = []
    check = Audit.check

    def heard(self: Audit, what: Apart, *rest: object) -> object:
        asked.append(what)
        return check(self, what, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(Audit, "check", heard)
    decider = Decider(Asked(vehicle("never a becomes on and b becomes on"), SECONDS, None, BOTH))
    decided = decider.decide(0)
    assert decided.verdict.story is not None
    assert decided.verdict.story.aside.apart is Answer.NO
    assert [type(each.what) for each in asked if isinstance(each, Apart)] == [Broken]
    assert decided.found == ()
