"""What is so of each fault and each requirement of a small vehicle, and whether a fault is noticed."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.lang.program import And, CallsWithin, Expr, Guard, Not, Program, Requirement, TellTale
from tests.oracle.broken.kernel import is_there, limited
from tests.oracle.broken.making import Breaking
from tests.oracle.broken.parts import Fault, When, faults_of
from tests.oracle.making import Making
from tests.oracle.oracle import Answer, decide, nodes_of


class Explored:
    """One vehicle, and all that is asked of it whole and broken. All that is asked raises `TooBig`."""

    def __init__(self, program: Program, limit: int) -> None:
        self.program = program
        self.limit = limit
        self.faults = faults_of(program)
        self.making = Making()
        self.broken: dict[frozenset[tuple[Fault, When]], tuple[Program, Breaking]] = {}
        self.known: dict[str, Answer] = {}

    def whole(self, requirement: Requirement) -> Answer:
        """What is so of a requirement of the vehicle as long as nothing is broken."""
        if requirement.name not in self.known:
            self.known[requirement.name] = decide(self.program, requirement, self.limit, self.making)
        return self.known[requirement.name]

    def with_faults(self, requirement: Requirement, faults: Mapping[Fault, When]) -> Answer:
        """What is so of it where these faults may be there."""
        key = frozenset(faults.items())
        if key not in self.broken:
            self.broken[key] = limited(self.program, faults), Breaking(faults)
        program, making = self.broken[key]
        return decide(program, requirement, self.limit, making)

    def can_matter(self, fault: Fault, when: When, requirement: Requirement) -> bool:
        """Whether the fault can matter to a requirement, by names."""
        making = Breaking({fault: when})
        return bool(making.kept[making.slice(limited(self.program, [fault]), nodes_of(requirement), (requirement,))])

    def noticed(self, fault: Fault, when: When) -> list[Answer]:
        """For each tell-tale line, whether it shows the fault."""
        tales = self.program.electrics.tell_tales
        return [self.with_faults(telling(fault, tale), {fault: when}) for tale in tales]


def telling(fault: Fault, tale: TellTale) -> Requirement:
    """A fault is noticed by this line if this is so."""
    there = is_there(fault)
    p: Expr = And((there, tale.r)) if tale.r else there
    return Requirement(
        "told", "", Guard.FUNCTION, CallsWithin(p, tale.p, tale.time, Not(tale.r) if tale.r else None), ""
    )
