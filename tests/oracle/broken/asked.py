"""What is so of each fault and each requirement of a small vehicle, and whether a fault is noticed."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.lang.program import And, CallsWithin, Expr, Guard, Not, Program, Requirement, TellTale
from tests.oracle.broken.kernel import is_there, limited
from tests.oracle.broken.making import Breaking
from tests.oracle.broken.parts import Fault, When
from tests.oracle.oracle import Answer, decide


def with_faults(program: Program, requirement: Requirement, faults: Mapping[Fault, When], limit: int) -> Answer:
    """What is so of a requirement where these faults may be there. Raises `TooBig`."""
    return decide(limited(program, faults), requirement, limit, Breaking(faults))


def telling(fault: Fault, tale: TellTale) -> Requirement:
    """A fault is noticed by this line if this is so."""
    there = is_there(fault)
    p: Expr = And((there, tale.r)) if tale.r else there
    return Requirement(
        "told", "", Guard.FUNCTION, CallsWithin(p, tale.p, tale.time, Not(tale.r) if tale.r else None), ""
    )


def noticed(program: Program, fault: Fault, when: When, limit: int) -> list[Answer]:
    """For each tell-tale line, whether it shows the fault."""
    tales = program.electrics.tell_tales
    return [with_faults(program, telling(fault, tale), {fault: when}, limit) for tale in tales]
