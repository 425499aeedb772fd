"""What stands in the way of answers about all situations, and what a report of them comes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logiccheck.engine.verdict import Obstacle
from logiccheck.explain.asking import Blocked, Open
from logiccheck.report import words_ways as words
from logiccheck.report.plain import typed
from logiccheck.report.report import Outcome


def hindered(
    file: str, answers: Sequence[Open | Blocked], interrupted: bool, unsettled: Obstacle | None
) -> Iterator[str]:
    """Why not all is known, or not of all; `unsettled`: why not all is known to come to rest."""
    if interrupted:
        yield words.INTERRUPTED
        return
    blocked = any(isinstance(answer, Blocked) for answer in answers)
    yield from dict.fromkeys(words.why_open(answer) for answer in answers)
    if unsettled is not None and not blocked:
        yield words.AT_REST[unsettled]
    if unsettled is not None or blocked:
        yield words.see_check(typed(file))


def outcome(answers: Sequence[Open | Blocked], interrupted: bool, unsettled: Obstacle | None = None) -> Outcome:
    """`unsettled` counts where answers claim to be all that there are."""
    obstacles = {answer.by for answer in answers if isinstance(answer, Blocked)}
    obstacles |= {unsettled} if unsettled is not None else set()
    if obstacles - {Obstacle.UNSETTLED_UNKNOWN}:
        return Outcome.FAILS
    return Outcome.OPEN if answers or obstacles or interrupted else Outcome.GOOD
