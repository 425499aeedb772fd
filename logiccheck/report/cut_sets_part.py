"""Minimal cut sets as shown: of each requirement the sets of faults that together let it fail."""

from __future__ import annotations

from logiccheck.base.frozen import frozen


@frozen
class CutSetPart:
    """The faults of one set, in the order of the file, and a story in one line; empty where stories are not shown."""

    faults: tuple[str, ...]
    story: str


@frozen
class CutRequirementPart:
    """One requirement and its cut sets, the smallest first. `counts[n]` of them have n faults. `complete`: those
    that have at most so many faults are all, aside from what `left_out` tells; None: that is known of no number."""

    name: str
    label: str
    guards: str
    danger: bool
    text: str
    place: str
    sentence: str
    counts: tuple[int, ...]
    complete: int | None
    sets: tuple[CutSetPart, ...]
    left_out: tuple[str, ...] = ()


@frozen
class CutSetsPart:
    """All of it; `order`: sets of more faults were not sought. `answer` follows the first line of the report,
    `cautions` stand with every output."""

    order: int
    answer: tuple[str, ...]
    requirements: tuple[CutRequirementPart, ...]
    cautions: tuple[str, ...]
