"""Sentences about pairs of faults: with which a requirement fails, though with neither of the two alone."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.report.words_cut_sets import reason

WHAT_THEY_ARE = (
    "A pair of faults is told if both together let a requirement fail, and neither alone does: that is proved. Each "
    "may come at any moment, from the start on too, and then stays; a supply that dips comes back. A part has one "
    "fault at a time. Pairs of which both are hidden come first: one can lie there unnoticed when the other comes."
)
INTERRUPTED = "The run was interrupted before pairs of faults were looked for."


@frozen
class PairsCounted:
    """How many pairs were found; of how many of them both faults are hidden; of how many requirements it is not known
    whether these are all."""

    found: int
    both_hidden: int
    open: int


def counted(pairs: PairsCounted) -> str:
    """In the first line of the report."""
    told = f"Pairs of faults that let a requirement fail, where neither alone does: {pairs.found}."
    if pairs.found:
        told = f"{told} Both hidden: {pairs.both_hidden}."
    return f"{told} Requirements of which not all pairs are decided: {pairs.open}." if pairs.open else told


def hits(found: int, both_hidden: int, one_hidden: int, standing: str) -> str:
    """How many pairs let one requirement fail, and whether these are all."""
    if not found:
        return f"No pair was found. {standing}"
    told = f"Pairs of faults with which it fails, though with neither alone: {found}."
    return f"{told} Both hidden: {both_hidden}. One hidden: {one_hidden}. {standing}"


def standing(found: int, whole: bool, aside: bool, why: Undecided | Obstacle | None) -> str:
    """Whether the pairs that are told are all; `aside`: some were not asked, which is told below."""
    if whole:
        but = ", aside from what was not asked (below)" if aside else ""
        other = "There are no others" if found else "There is none"
        return f"{other}{but}: proved for all situations, orders and timings."
    told = "Whether there are more was not decided." if found else "Whether there is one was not decided."
    return f"{told} {reason(why)}" if why is not None else told


def none(names: Sequence[str]) -> str:
    """Requirements that no pair breaks, of the faults that were tried."""
    told = "Proved that no pair of the faults that were tried lets these fail unless one of the two alone does"
    return f"{told}: {', '.join(names)}."


def possible(names: Sequence[str]) -> str:
    """Requirements that are not asked about pairs."""
    return f"Not asked about pairs, as these say what must be possible: {', '.join(names)}."


def pair(first: str, second: str) -> str:
    """Two faults at once."""
    return f"{first} and {second}"


def noticed(hidden: Sequence[str], unknown: Sequence[str]) -> str:
    """Which of the two nobody need notice, and of which that is not known."""
    if len(hidden) == 2:
        return "both hidden"
    if not unknown:
        return f"one hidden: {hidden[0]}" if hidden else "both noticed"
    told = f"whether {' or '.join(unknown)} is noticed was not decided"
    return f"one hidden: {hidden[0]}; {told}" if hidden else told


def alone_if_loose(when: str, names: Sequence[str]) -> str:
    """`names`: faults of the pair that do it alone where they come and go, which a fault of a pair does not."""
    return f"{when} ({' or '.join(names)} alone, too, if it comes and goes)" if names else when
