"""What single faults do, as shown: by requirement what can let it fail, and by part a table in the words of an FMEA."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Guard


class Severity(Enum):
    """What the worst requirement guards that fails with a fault; the first that applies."""

    DANGER = "danger"
    SHORT = "short circuit"  # the fault itself is one, where something is fed; nothing else against danger fails
    DAMAGE = "damage"
    FUNCTION = "function"
    OPEN = "not decided"
    NONE = "none"


SEVERITIES = {Guard.DANGER: Severity.DANGER, Guard.DAMAGE: Severity.DAMAGE, Guard.FUNCTION: Severity.FUNCTION}
WORST = tuple(Severity)


@frozen
class HitPart:
    """A fault, or several at once, with which a requirement fails: since when it is there, the shortest story in one
    line, and how it is noticed; `number` is that of the whole story, where that is asked for, else 0."""

    fault: str
    when: str
    story: str
    noticed: str
    hidden: bool
    number: int = 0


@frozen
class EndangeredPart:
    """A requirement, and all faults with which it fails; `open`: those of which that is not decided, by the reason.
    `brief`: as text they are listed together, and none of their stories is shown whole."""

    name: str
    label: str
    guards: str
    severity: Severity
    text: str
    place: str
    sentence: str
    hits: tuple[HitPart, ...]
    open: tuple[str, ...] = ()
    brief: bool = False


@frozen
class EffectPart:
    """One row of the table: what becomes of a part (`local`) and of what is required (`ends`) in one failure mode."""

    part: str
    label: str
    kind: str
    place: str
    mode: str
    local: str
    ends: tuple[str, ...]
    severity: Severity
    noticed: str
    hidden: bool


@frozen
class FaultsPart:
    """All of it; `answer` follows the first line of the report, `cautions` stand with every output."""

    answer: tuple[str, ...]
    endangered: tuple[EndangeredPart, ...]
    effects: tuple[EffectPart, ...]
    cautions: tuple[str, ...]
    pairs: tuple[EndangeredPart, ...] = ()
