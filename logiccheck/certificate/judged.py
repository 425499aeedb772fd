"""What came of proving a certificate again: of each claim, of what all rests on, and of each requirement of the
rules."""

from __future__ import annotations

from enum import Enum

from logiccheck.audit.certificate import Clause
from logiccheck.audit.check import Flaw
from logiccheck.base.frozen import frozen
from logiccheck.certificate.document import Subject


class Fault(Enum):
    """What can be wrong with a claim beside the flaws of its clauses."""

    STRANGE = "it speaks of something that the rules do not have"
    TOO_MANY = "it names too many ways on to look at"
    NO_STORY = "no story shows that it can happen"


class State(Enum):
    HOLDS = "holds"
    REFUSED = "refused"
    OPEN = "not decided"  # its time ran out, or the run was interrupted
    FULL = "not decided for want of memory"
    BASELESS = "without a base"  # it is not shown that every moment settles, on which it rests


@frozen
class Judged:
    """One claim. `why` and, where one shows it, `clause` say what is wrong with one that is refused."""

    subject: Subject
    state: State
    why: Flaw | Fault | None = None
    clause: Clause | None = None


class Standing(Enum):
    """Where a requirement, or what all rests on, stands after all claims were judged; the worst first."""

    REFUSED = "refused"  # a claim about it is wrong
    MISSING = "missing"  # nothing in the certificate proves it
    FAILS = "fails"  # the certificate itself shows that it does not hold
    NO_CASE = "no case"  # the certificate itself shows that it can never matter
    CASE_MISSING = "case missing"  # never broken, but nothing shows that it can ever matter
    OTHERWISE = "otherwise"  # its claims hold, but the certificate names another verdict than proved
    BASELESS = "without a base"  # what it rests on is not shown
    FULL = "not decided for want of memory"
    OPEN = "not decided"
    SHOWN = "shown"


@frozen
class Stands:
    """`said`: the verdict that the certificate names, if any; `refused`: the claims that make it REFUSED."""

    name: str
    label: str
    standing: Standing
    said: str = ""
    refused: tuple[Judged, ...] = ()


@frozen
class Rechecked:
    """`requirements` in the order of the rules. `settling`: every moment settles. `begins`: some world meets at time 0
    what is given. `time`: what is given lets time go on. `shorts`: no short circuit. `strange`: names in the
    certificate that the rules do not have. `held` of `claims` claims hold."""

    requirements: tuple[Stands, ...]
    settling: Stands
    begins: Stands
    time: Stands
    shorts: Stands
    strange: tuple[str, ...]
    held: int
    claims: int
    interrupted: bool = False

    @property
    def bases(self) -> tuple[Stands, ...]:
        """What every requirement rests on."""
        return self.settling, self.begins, self.time
