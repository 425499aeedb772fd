"""What the verdicts of a check rest on: each question with its proof, or with a story that answers it."""

from __future__ import annotations

from logiccheck.audit.certificate import Certificate
from logiccheck.audit.relation import Question
from logiccheck.base.frozen import frozen


@frozen
class Never:
    """A proof, which the audit has accepted, that this never happens."""

    question: Question
    certificate: Certificate


@frozen
class Happens:
    """Some story of at most so many moments shows it (moments in which only a time is over may come on top)."""

    question: Question
    moments: int


@frozen
class Grounds:
    """Of moments with so many repeats; in the order in which they were found."""

    repeats: int
    found: tuple[Never | Happens, ...] = ()
