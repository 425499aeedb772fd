"""What is sought beside the verdicts of a check, and what came of it: values only, which cost nothing to load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING

from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.engine.verdict import Obstacle, Verdict
from logiccheck.explain.mending import Excluded, Mending
from logiccheck.lang.program import Signal

if TYPE_CHECKING:
    from logiccheck.explain.asking import Answer


class Hollow(Enum):
    """What keeps the situation away."""

    RULES = "rules"  # with other rules it could occur; of a vehicle without a box: its copper, whatever is given
    ANYTHING = "anything"  # it could not, whatever the rules say and whatever is given
    GIVEN = "given"  # it could, with other rules, if less were given


@frozen
class Emptiness:
    """`lines`: of what is given, those that together keep the situation away; none of them can be spared."""

    kind: Hollow
    lines: tuple[Span, ...] = ()


class Binds(Enum):
    """What there is to see at the end of the story."""

    OTHERWISE = "otherwise"  # read otherwise there, one thing that it names would break it
    ENDS = "ends"  # what may not go on for longer ends in time
    FOLLOWS = "follows"  # what is called for is there in time
    LASTS = "lasts"  # what has to last begins to
    BEGINS = "begins"  # what needs something before it begins, and had that
    WAITS = "waits"  # what has to wait is off, and waits
    HAPPENS = "happens"  # what shall be possible is so


@frozen
class Bound:
    """`answer`: the shortest story that ends in such a situation; `signal`: what would break it, read otherwise than it
    does there. `at_will`: it holds even with rules and outputs at will, so it asks nothing of them; None: not known."""

    verdict: Verdict
    binds: Binds
    answer: Answer
    signal: Signal | None = None
    at_will: bool | None = None


@frozen
class Bindings:
    """In the order asked; `unsettled`: why not all is known to come to rest."""

    each: tuple[Bound, ...]
    interrupted: bool = False
    unsettled: Obstacle | None = None


@frozen
class Sought:
    """Seconds: `each` for one question about the vehicle, `edits` to look for edits that would mend what fails, `cases`
    for situations in which what is proved decides something; 0 looks for none."""

    each: float
    edits: float = 0.0
    cases: float = 0.0


@dataclass(slots=True)
class Beside:
    """By the names of requirements: what excludes each other in what can never be so, what would mend it, what keeps
    its situation away. `bound`: when those that are proved decide something. `calm`: what would bring a chase to rest.
    `bugs`: our own mistakes on the way; `interrupted`: not all was sought."""

    excluded: Mapping[str, Sequence[Excluded]] = field(default_factory=dict)
    mendings: Mapping[str, Mending] = field(default_factory=dict)
    empty: Mapping[str, Emptiness] = field(default_factory=dict)
    bound: Bindings | None = None
    calm: Mending | None = None
    bugs: tuple[Bug, ...] = ()
    interrupted: bool = False
