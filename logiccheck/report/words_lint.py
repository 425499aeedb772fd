"""What is said about findings: the first and the last line of a lint, and what a check adds about them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle
from logiccheck.lang.program import Guard

GUARDS = {
    Guard.DANGER: "Danger to people may come of it.",
    Guard.DAMAGE: "Damage may come of it.",
    Guard.FUNCTION: "Something may not work as meant.",
}

EXAMPLE = "A situation that shows it"

OBSTACLES = {
    Obstacle.CONTRADICTION: "what is given contradicts itself",
    Obstacle.TIME_STOPS: "what is given brings time to a stop",
    Obstacle.UNSETTLED: "the rules or relays can chase each other for ever",
    Obstacle.UNSETTLED_UNKNOWN: "whether the rules and relays always come to rest was not decided",
}


@frozen
class Tally:
    """Findings that nobody accepts, by what they guard against; how many are accepted; lines that accept nothing."""

    counts: Mapping[Guard, int]
    accepted: int = 0
    vain: int = 0

    @property
    def total(self) -> int:
        return sum(self.counts.values())


def opening(label: str, tally: Tally, undecided: bool) -> str:
    """The first line of a lint."""
    ends = [f"Accepted: {tally.accepted}."] if tally.accepted else []
    return " ".join([f"{label}: {_opening(tally, undecided)}", *ends])


def _opening(tally: Tally, undecided: bool) -> str:
    dangers = tally.counts.get(Guard.DANGER, 0)
    if dangers:
        return f"FINDINGS: {tally.total}. From some of them danger to people may come: {dangers}."
    if tally.total:
        return f"FINDINGS: {tally.total}."
    if tally.vain:
        return f"ACCEPTED IN VAIN. Lines under `accepted` with nothing to accept: {tally.vain}."
    if undecided:
        return "NOTHING FOUND SO FAR. Not everything was decided."
    found = "NOTHING ELSE FOUND." if tally.accepted else "NOTHING FOUND."
    return f"{found} This says nothing about what is required: for that, check it."


def closing(tally: Tally, undecided: int, whole: bool, interrupted: bool) -> str:
    """The last line of a lint: the counts; `whole`: all was decided that was looked for."""
    parts = [f"{guard.value} {tally.counts.get(guard, 0)}" for guard in Guard]
    if tally.accepted:
        parts.append(f"accepted {tally.accepted}")
    if tally.vain:
        parts.append(f"accepted in vain {tally.vain}")
    parts.append(f"questions not decided {undecided}")
    if interrupted:
        parts.append("interrupted")
    return f"{', '.join(parts)}: {_comes_to(tally, whole)}"


def _comes_to(tally: Tally, whole: bool) -> str:
    if tally.total:
        return f"findings {tally.total}"
    if tally.vain:
        return "nothing to accept"
    if not whole:
        return "not all decided"
    return "nothing else found" if tally.accepted else "nothing found"


def undecided(count: int) -> str:
    """Some questions have no answer."""
    return f"Questions of the lint that were not decided: {count}. What they are about may have more findings."


def out_of_time(option: str) -> str:
    """The time was over."""
    return f"The time for the lint ran out; {option} gives it more."


def in_the_way(by: Obstacle) -> str:
    """Something stands in the way of all questions."""
    return f"Findings that rest on what can happen were looked for in vain: {OBSTACLES[by]}."


def unfinished(names: Sequence[str]) -> str:
    """Kinds that were not looked for to the end."""
    return f"Not looked for to the end: {', '.join(names)}."


def counted(findings: int) -> str:
    """In a check: how many there are, shown above."""
    return f"Findings of the lint: {findings}."


TEXT_ONLY = "Findings that rest on what can happen were not looked for."
