"""What the audit refuses, and why; bounds of time that clash, against a solver that knows real numbers."""

from __future__ import annotations

from random import Random

import pytest
import z3

from logiccheck.audit.certificate import Ahead, Certificate, Clause
from logiccheck.audit.check import Audit, Flaw
from logiccheck.audit.differences import Bound, clash
from logiccheck.audit.relation import Broken, Stuck
from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.sat import Sat
from logiccheck.lang.program import Program
from tests.oracle.loading import loaded

SECONDS = 60.0
MS = 1_000


def audit(program: Program, repeats: int = 1) -> Audit:
    """An audit to which it was shown that moments settle."""
    made = Audit(program, repeats, lambda: Sat("glucose4"))
    assert made.settles(Certificate(), Budget(SECONDS)) is None
    return made


def vehicle(requirement: str, given: str = "") -> Program:
    lines = f"given\n{given}" if given else ""
    return loaded(
        f"""
vehicle "V"
world
    a contact
    b contact
    at first a is off
harness
    source plus
    wire w from plus when a
    relay k coil off_delay(w, 5 s)
{lines}
requirements
    danger it {requirement}
"""
    )


def flaw(requirement: str, *clauses: Clause) -> Flaw | None:
    program = vehicle(requirement)
    refusal = audit(program).check(Broken(program.requirements[0]), Certificate(clauses), Budget(SECONDS))
    return None if refusal is None else refusal.flaw


# The run of the requirement begins when the relay's does, and is over no later; while it goes on, the wire is dead.
NOT_OVER: Clause = (("it:run.over", False),)
IN_TIME: Clause = (("it:run.run", False), ("it:run.over", True), (Ahead("k", "it:run", 0, or_same=False), False))
DEAD: Clause = (("it:run.run", False), ("k.on", False))


def test_a_proof_passes() -> None:
    """The relay holds for 5 s, so it is never longer."""
    assert flaw("never k while not a for longer than 5 s", NOT_OVER, IN_TIME, DEAD) is None


def test_a_requirement_that_asks_more() -> None:
    """The relay's deadline is later than that of the requirement."""
    assert flaw("never k while not a for longer than 4.999999 s", NOT_OVER, IN_TIME, DEAD) is Flaw.CLOSURE


@pytest.mark.parametrize("missing", range(3))
def test_each_clause_is_needed(missing: int) -> None:
    """Without one of them what is left allows too much."""
    clauses = [NOT_OVER, IN_TIME, DEAD]
    del clauses[missing]
    assert flaw("never k while not a for longer than 5 s", *clauses) is Flaw.SAFETY


def test_names_that_nothing_stores() -> None:
    """A bit, a timer, a line of what is given."""
    program = vehicle("never k")
    question, made = Broken(program.requirements[0]), audit(program)
    for clause in ((("k.oil", False),), ((Ahead("k", "q", 0, False), False),)):
        refusal = made.check(question, Certificate((clause,)), Budget(SECONDS))
        assert refusal is not None
        assert (refusal.flaw, refusal.clause) == (Flaw.NAMES, clause)
    refusal = made.check(question, Certificate((), frozenset({("given", 0)})), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.NAMES


def test_before_time_0() -> None:
    """A clause of what is true does not hold before anything was."""
    assert flaw("never k", (("begun", True),)) is Flaw.INITIATION
    assert flaw("never k") is Flaw.SAFETY


def test_settling_comes_first() -> None:
    """Nothing passes before it is shown that moments settle; with too few repeats that cannot be shown."""
    program = vehicle("never k and not k")
    question = Broken(program.requirements[0])
    made = Audit(program, 1, lambda: Sat("glucose4"))
    refusal = made.check(question, Certificate(), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.SETTLING
    assert made.settles(Certificate(), Budget(SECONDS)) is None
    assert made.check(question, Certificate(), Budget(SECONDS)) is None
    few = Audit(program, 0, lambda: Sat("glucose4")).settles(Certificate(), Budget(SECONDS))
    assert few is not None
    assert few.flaw is Flaw.SAFETY


def test_what_demands_and_what_touches_it_is_not_left_out() -> None:
    """Whether time can stop hangs on every line that can demand something, and on those beside it."""
    program = vehicle("never k", "    a lasts at most 5 s\n    never not a and b\n    a lasts at least 6 s\n")
    made = audit(program)
    lines = frozenset(("given", i) for i in range(3)) | {("at first", 0)}
    for left_out in sorted(lines, key=str):
        refusal = made.check(Stuck((), lines - {left_out}), Certificate(), Budget(SECONDS))
        assert refusal is not None
        assert refusal.flaw is Flaw.LINES
    refusal = made.check(Stuck((), lines), Certificate(), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.SAFETY


def test_it_ends_when_time_is_over() -> None:
    """It does not pass what it had no time to look at."""
    program = vehicle("never k and not k")
    made = audit(program)
    with pytest.raises(OutOfTime):
        made.check(Broken(program.requirements[0]), Certificate(), Budget(-1.0))


@pytest.mark.parametrize("seed", range(8))
def test_bounds_that_clash(seed: int) -> None:
    """As the solver of real numbers says, and what is named clashes by itself."""
    random = Random(seed)
    points = ["p", "q", "r", "s"]
    clashes = 0
    for _ in range(60):
        bounds = [_bound(random, random.sample(points, 2), i + 1) for i in range(random.randint(2, 7))]
        found = clash(bounds)
        assert (found is not None) is _clash(bounds)
        if found is not None:
            clashes += 1
            assert _clash(list(found))
    assert 0 < clashes < 60


def _bound(random: Random, points: list[str], why: int) -> Bound:
    return Bound(points[0], points[1], random.randint(-3, 3), random.random() < 0.5, (why,))


def _clash(bounds: list[Bound]) -> bool:
    solver = z3.Solver()
    for bound in bounds:
        apart = z3.Real(bound.later) - z3.Real(bound.earlier)
        solver.add(apart < bound.limit if bound.strict else apart <= bound.limit)
    return bool(solver.check() == z3.unsat)


def test_that_time_goes_on_is_shown_without_what_is_given() -> None:
    """Where what is given is met nothing is stuck: whoever takes that for granted has shown nothing."""
    program = vehicle("never k", "    a lasts at most 5 s\n    never not a and b\n    a lasts at least 6 s\n")
    lines = frozenset(("given", i) for i in range(3)) | {("at first", 0)}
    refusal = audit(program).check(Stuck((), lines), Certificate(lines=lines), Budget(SECONDS))
    assert refusal is not None
    assert refusal.flaw is Flaw.GRANTED
