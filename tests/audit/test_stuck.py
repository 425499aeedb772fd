"""Proofs that what is given always leaves a way on: plans that are none, or of which one is missing, are refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.audit.certificate import Certificate
from logiccheck.audit.check import Audit, Flaw
from logiccheck.audit.grounds import Never
from logiccheck.audit.relation import Stuck
from logiccheck.audit.stuck import Plan
from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.sat import Sat
from logiccheck.lang.program import Program
from tests.oracle.loading import loaded

SECONDS = 60.0

ANOTHER = """
given
    always x
    y is on after x has lasted 3 s
    y changes only while z
"""
GEAR = """
given
    always x
    gear is low after x has lasted 3 s
"""
PASSED = """
given
    always x
    gear is low after x has lasted 3 s
    never z and gear is middle
"""
APART = """
given
    x lasts at most 3 s
    y lasts at most 3 s
    gear is not low after z has lasted 2 s
"""


def vehicle(given: str) -> Program:
    return loaded(
        f"""
vehicle "V"
world
    x contact
    y contact
    z contact
    gear low | middle | high one by one
{given}
requirements
    danger it never y and z and gear is high
"""
    )


def proofs(program: Program) -> list[tuple[Stuck, Certificate]]:
    """What the search proves of time, group by group."""
    found = check_program(program, SECONDS).grounds.found
    return [(n.question, n.certificate) for n in found if isinstance(n, Never) and isinstance(n.question, Stuck)]


def audit(program: Program) -> Audit:
    made = Audit(program, 1, lambda: Sat("glucose4"))
    assert made.settles(Certificate(), Budget(SECONDS)) is None
    return made


def flaw(program: Program, question: Stuck, certificate: Certificate) -> Flaw | None:
    refusal = audit(program).check(question, certificate, Budget(SECONDS))
    return None if refusal is None else refusal.flaw


@pytest.mark.parametrize("given", [ANOTHER, GEAR, APART])
def test_what_is_proved_passes(given: str) -> None:
    """And whatever else a plan may want to move: one lawful plan is enough."""
    program = vehicle(given)
    for question, certificate in proofs(program):
        assert flaw(program, question, certificate) is None
        more = replace(question, plans=(*question.plans, ((("x", 1), ("y", 1)),)))
        assert flaw(program, more, certificate) is None


@pytest.mark.parametrize(
    ("given", "plans"),
    [
        (ANOTHER, []),
        (ANOTHER, [((("y", 1),),)]),  # nothing allowed it before
        (ANOTHER, [((("z", 1),), ())]),  # allowed, and not done
        (GEAR, []),
        (GEAR, [((("gear", 0),),)]),  # from high it is too far
        (PASSED, [((("gear", 0),), (("gear", 0),))]),  # not past the middle while z is on
    ],
)
def test_plans_that_are_not_enough(given: str, plans: list[Plan]) -> None:
    """The proof is otherwise good: with these plans in place of its own, what is stuck is seen."""
    program = vehicle(given)
    [(question, certificate)] = proofs(program)
    assert flaw(program, replace(question, plans=tuple(plans)), certificate) is Flaw.SAFETY


def test_plans_that_are_enough() -> None:
    """First z and then y; down in two moments. Nothing but staying and these is looked at."""
    program = vehicle(ANOTHER)
    [(question, certificate)] = proofs(program)
    ready: Plan = ((("z", 1),), (("y", 1),))
    assert flaw(program, replace(question, plans=(ready,)), certificate) is None
    program = vehicle(GEAR)
    [(question, certificate)] = proofs(program)
    down: Plan = ((("gear", 0),), (("gear", 0),))
    assert flaw(program, replace(question, plans=(down,)), certificate) is None


@pytest.mark.parametrize("plan", [(), ((("oil", 1),),), ((("gear", 3),),), ((("y", -1),),)])
def test_plans_that_are_none(plan: Plan) -> None:
    """Of no moment, of what there is not, to where it cannot be."""
    program = vehicle(ANOTHER)
    [(question, certificate)] = proofs(program)
    assert flaw(program, replace(question, plans=(*question.plans, plan)), certificate) is Flaw.NAMES


def test_each_group_by_itself() -> None:
    """Lines that share nothing are proved apart; none that demands anything may be left out in the end."""
    program = vehicle(APART)
    found = proofs(program)
    lines = [frozenset(line for line in question.lines if line[0] == "given") for question, _ in found]
    assert lines == [{("given", 0)}, {("given", 1)}, {("given", 2)}]
    made = audit(program)
    for number, (question, certificate) in enumerate(found):
        left = made.nothing_else_stops([])
        assert left is not None
        assert left.flaw is Flaw.LINES
        assert made.nothing_else_stops([("given", i) for i in range(number, 3)]) is None
        assert made.check(question, certificate, Budget(SECONDS)) is None
    assert made.nothing_else_stops([]) is None


def test_what_touches_it_belongs_to_it() -> None:
    """A claim about a part of a group leaves out what matters."""
    program = vehicle(ANOTHER)
    [(question, certificate)] = proofs(program)
    for line in question.lines:
        assert flaw(program, replace(question, lines=question.lines - {line}), certificate) is Flaw.LINES
