"""Sentences about what is accepted, and the line that accepts something."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.lang.program import Accepted
from logiccheck.lang.resolve.accepted import NAME, REASON

ACCEPTED = "accepted"
NO_MARK = "0000-0000"  # for whom asks for the mark
TO_ACCEPT = "to accept it:"
TO_ACCEPT_DANGER = "to accept it, though the verdict stays as it is:"
DANGER_ALL_THE_SAME = "It guards against danger to people, so the verdict stays as it is."


def holds(line: Accepted) -> str:
    """Somebody takes responsibility for it."""
    return f"Accepted by {line.by} on {line.on}: {_sentence(line.reason)}"


def lapsed(line: Accepted) -> str:
    """Somebody took responsibility for it, and then the vehicle was changed; or has not yet said for which logic."""
    if line.logic == NO_MARK:
        return f"Accepted by {line.by} on {line.on}, but without the mark of the logic: {_sentence(line.reason)}"
    begin = f"Accepted by {line.by} on {line.on}, but the logic it rests on has changed since."
    return f"{begin} The reason was: {_sentence(line.reason)}"


def _sentence(reason: str) -> str:
    """It ends, so that what is said behind it does not run on."""
    return reason if reason.endswith((".", "!", "?")) else f"{reason}."


def ready(kind: str, about: str, mark: str) -> str:
    """The line that accepts it, for the block `accepted`; reason, name and date are to be filled in."""
    return f'{kind} {about} "{REASON}" by "{NAME}" on YYYY-MM-DD logic {mark}'


def accepted(count: int) -> str:
    """How many findings are accepted, shown above."""
    return f"Findings that are accepted: {count}."


def unseen(lines: Sequence[Accepted]) -> str:
    """What these lines accept was not looked for, or not to the end."""
    listed = ", ".join(f"{line.kind} of {line.about}" for line in lines)
    return f"Accepted, but whether it is still so was not found out this time: {listed}."


def unseen_line(line: Accepted) -> str:
    """Reason, name and date of one of these lines."""
    return f"{line.kind} of {line.about}: {holds(line)}"
