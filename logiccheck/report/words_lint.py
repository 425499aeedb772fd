"""What is said about findings: the first and the last line of a lint, and what a check adds about them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

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


def opening(label: str, counts: Mapping[Guard, int], undecided: bool) -> str:
    """The first line of a lint."""
    total = sum(counts.values())
    if counts.get(Guard.DANGER):
        return f"{label}: FINDINGS: {total}. From some of them danger to people may come: {counts[Guard.DANGER]}."
    if total:
        return f"{label}: FINDINGS: {total}."
    if undecided:
        return f"{label}: NOTHING FOUND SO FAR. Not everything was decided."
    return f"{label}: NOTHING FOUND. This says nothing about what is required: for that, check it."


def closing(counts: Mapping[Guard, int], undecided: int, whole: bool, interrupted: bool) -> str:
    """The last line of a lint: the counts; `whole`: all was decided that was looked for."""
    parts = [f"{guard.value} {counts.get(guard, 0)}" for guard in Guard]
    parts.append(f"questions not decided {undecided}")
    if interrupted:
        parts.append("interrupted")
    total = sum(counts.values())
    what = f"findings {total}" if total else "nothing found" if whole else "not all decided"
    return f"{', '.join(parts)}: {what}"


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
