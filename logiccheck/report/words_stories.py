"""Sentences about a story: what stands over its columns, and what is worth saying beside its table."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.model.story import Answer


def just_after(time: str) -> str:
    """The title of the moment at which something becomes overdue."""
    return f"just after {time}"


def for_an_instant(time: str) -> str:
    """The title of a reaction that does not last."""
    return f"{time}, for an instant"


def together(time: str, changed: tuple[str, ...], due: tuple[str, ...]) -> str:
    """Hands, and perhaps timers that end, at one instant."""
    names = ", ".join([*changed, *(f"the end of timer {key}" for key in due)])
    return f"At {time} these fall on the very same instant: {names}."


def all_along(facts: tuple[str, ...]) -> tuple[str, ...]:
    """What the hands leave alone in a story; nothing to say where there is nothing of that kind."""
    return (f"All along: {', '.join(facts)}.",) if facts else ()


def asleep() -> tuple[str, ...]:
    """The box never wakes in a story in which it matters."""
    return ("All along the box is without power.",)


def not_involved(count: int) -> tuple[str, ...]:
    """How much of the vehicle a story leaves out."""
    return (f"Signals not involved, and not shown: {count}.",) if count else ()


def apart(answer: Answer, moments: int, of_the_story: int) -> str:
    """Whether it takes a coincidence: with its moments, the shortest story that has none."""
    match answer:
        case Answer.YES if moments == of_the_story:
            return "It can also happen without any such coincidence, in as many moments."
        case Answer.YES:
            return f"It can also happen without any such coincidence, in a longer story. Its moments: {moments}."
        case Answer.NO:
            return "Without such a coincidence it cannot happen."
        case Answer.OPEN:
            return "Whether it can happen without any such coincidence was not decided. More time: --budget SECONDS."


def fixed(answer: Answer, lengths: Sequence[tuple[str, str]], nominal: bool) -> str:
    """Whether timers with a tolerance have to last now longer, now shorter; `lengths`: each timer and a time."""
    timers = ", ".join(f"{name} {length}" for name, length in lengths)
    match answer:
        case Answer.YES if nominal:
            return f"It also happens when each timer always runs its nominal time: {timers}."
        case Answer.YES:
            return f"It also happens when each timer always runs one and the same time: {timers}."
        case Answer.NO:
            names = ", ".join(name for name, _ in lengths)
            return f"When each timer always runs one and the same time, it does not happen like this: {names}."
        case Answer.OPEN:
            return "Whether it also happens when each timer always runs one and the same time was not decided."


UNSETTLED = "Time ran out before all stories as short as this one were compared. More time: --budget SECONDS."
