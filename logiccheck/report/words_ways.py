"""Sentences about the ways in which a signal can be on, and about what it is in all situations of a kind."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.engine.verdict import Obstacle
from logiccheck.explain.asking import Blocked, Open
from logiccheck.report.lists import joined
from logiccheck.report.words_verdict import UNDECIDED

PROVED = "Proved for all situations, orders and timings."
BLOCKED = {
    Obstacle.CONTRADICTION: "No answer: what is given contradicts itself, so nothing at all could ever be so.",
    Obstacle.TIME_STOPS: "No answer: what is given brings time to a stop, so what comes later was never looked at.",
    Obstacle.UNSETTLED: "No proof: the rules or relays can chase each other for ever.",
    Obstacle.UNSETTLED_UNKNOWN: "No proof: whether the rules and relays always come to rest was not decided.",
}
AT_REST = {
    Obstacle.UNSETTLED: "The rules or relays can chase each other for ever. This is said of what comes to rest.",
    Obstacle.UNSETTLED_UNKNOWN: (
        "Whether the rules and relays always come to rest was not decided. This is said of what does."
    ),
}
NO_NAME = "Not decided: what a coil remembers beside other terms cannot be asked for by itself."
INTERRUPTED = "The run was interrupted: what is not said here was not decided."

# ------------------------------------------------------------------------------------------------------- situations


def always(subject: str, state: str, when: str) -> str:
    """Nothing else can be there, and it comes to that."""
    return f"{subject} is always {state} when {when}. {PROVED}"


def never_yet(subject: str, state: str, when: str) -> str:
    """It is not that; whether it ever comes to those conditions is open."""
    return f"{subject} is never {state} when {when}. {PROVED} Whether it ever comes to that was not decided."


def differs(subject: str, yes: str, no: str, when: str) -> str:
    """Both can be there."""
    return f"When {when}, {subject} can be {yes} and can be {no}."


def can_be(subject: str, state: str, other: str, when: str) -> str:
    """One can be there, the other is open."""
    return f"{subject} can be {state} when {when}; whether it can be {other} there was not decided."


def open_(subject: str, yes: str, no: str, when: str) -> str:
    """Nothing is known."""
    return f"Whether {subject} is {yes} or {no} when {when} was not decided."


def nowhere(when: str) -> str:
    """There is no such situation."""
    return f"It never comes to that: {when}. {PROVED}"


def already(some: Sequence[str]) -> str:
    """Those of the conditions that suffice for that."""
    if len(some) == 1:
        return f"This alone is never so: {some[0]}."
    return f"These alone are never so together: {joined(some)}."


def stored(hands_alike: bool, items: Sequence[str]) -> str:
    """What is stored otherwise in the two examples; each item as `reads` puts it."""
    list_ = f"{'; '.join(items)}."
    if hands_alike:
        return (
            "At the end of both examples hands and physics are the same; what is stored is not (first / second): "
            f"{list_}"
        )
    return f"Stored otherwise in the two examples (first / second): {list_}"


def moved(items: Sequence[str]) -> str:
    """What hands and physics are otherwise in the two examples."""
    return f"No two examples with the same hands were found. In these differ (first / second): {'; '.join(items)}."


def reads(name: str, first: str, second: str) -> str:
    """How something reads in the first example and in the second."""
    return f"{name} {first} / {second}"


def example(number: int, state: str) -> str:
    """The title of one of two examples."""
    return f"Example {number}: {state}"


EXAMPLE = "An example"
CLOSED, OPENED = "closed", "open"
ON, OFF = "on", "off"


# -------------------------------------------------------------------------------------------------------- all ways


def ways(subject: str, state: str, count: int) -> str:
    """All of them are known."""
    return f"Ways in which {subject} can be {state}: {count}."


def ways_so_far(subject: str, state: str, count: int, undecided: int, of: int) -> str:
    """Not all of them are known."""
    return (
        f"Ways shown in which {subject} can be {state}: {count} of {of} that the text allows; not decided: {undecided}."
    )


def always_so(subject: str, state: str) -> str:
    """It has no choice."""
    return f"{subject} is always {state}. {PROVED}"


def never_so(subject: str, state: str) -> str:
    """There is no way."""
    return f"{subject} is never {state}. {PROVED}"


def no_way_written(subject: str, state: str) -> str:
    """Nothing that is written makes it so."""
    return f"{subject} is never {state}: nothing that is written makes it so."


def these(state: str, count: int, shortest: bool, proved: bool) -> str:
    """What is claimed of all ways together; `shortest`: each takes all of its facts; `proved`: all comes to rest."""
    if count == 1:
        whole, least = (
            f"Whenever it is {state}, this is so, and this makes it {state}.",
            "No fact of it can be left out.",
        )
    else:
        whole = f"Whenever it is {state}, one of these is so, or several are, and each makes it {state}."
        least = "In none of them can a fact be left out."
    return " ".join([whole, *([least] if shortest else []), *([PROVED] if proved else [])])


def counted(terms: int, merged: int, excluded: int) -> str:
    """What became of the ways that the text allows."""
    parts = [f"Ways that the text allows: {terms}"]
    parts += [f"covered by another of them: {merged}"] if merged else []
    parts += [f"cannot happen: {excluded}"] if excluded else []
    return f"{'; '.join(parts)}."


def way(number: int, facts: Sequence[str]) -> str:
    """The title of one way."""
    return f"Way {number}: {' and '.join(facts)}"


def shortest_story(steps: Sequence[str]) -> str:
    """How it comes to that, in one line."""
    return f"Shortest story: {'; '.join(steps)}."


def a_story(steps: Sequence[str]) -> str:
    """As `shortest_story`, where it is not known whether there is a shorter one."""
    return f"A story: {'; '.join(steps)}."


def step(time: str, happens: Sequence[str]) -> str:
    """One moment of it; nothing: what is told by then is only late."""
    return f"at {time} {joined(happens)}" if happens else f"nothing more until {time}"


def at_first(happens: Sequence[str]) -> str:
    """How the story begins; nothing: as said in the file, or with everything in its first position."""
    return f"at first {joined(happens)}" if happens else "it is so at first"


def goes(name: str, value: str) -> str:
    """Hands or physics move something."""
    return f"{name} goes to {value}"


def begins(name: str, value: str) -> str:
    """Where something is at first."""
    return f"{name} is {value}"


def holds_itself(name: str) -> str:
    """The own contact of a relay, or what else a signal hangs on that is itself."""
    return f"{name} holds itself"


NOT_SHORT = "Whether it takes all of these facts was not decided."
CANNOT = "Ways of the text that cannot happen"
OPEN_WAYS = "Ways that are not decided"


def cannot(by: Sequence[str], terms: int) -> str:
    """Why ways of the text cannot happen."""
    what = f"never so: {by[0]}" if len(by) == 1 else f"never so together: {joined(by)}"
    return f"Proved {what}. Ways that would need it: {terms}."


def undecided(facts: Sequence[str], why: str) -> str:
    """A way of which it is not known whether it can happen."""
    return f"{' and '.join(facts)}. {why}"


def and_more(count: int) -> str:
    """What is not listed."""
    return f"Further ones, not listed: {count}."


def why_open(answer: Open | Blocked) -> str:
    """Why there is no answer."""
    if isinstance(answer, Blocked):
        return BLOCKED[answer.by]
    return NO_NAME if answer.why is None else UNDECIDED[answer.why]


def see_check(file: str) -> str:
    """Where the story of what blocks answers is shown."""
    return f"What stands in the way is shown by: logiccheck check {file}"


def too_many(subject: str, state: str) -> str:
    """The text allows more than is worth listing."""
    return f"There are too many ways in which {subject} can be {state} to list them. Ask for a part of it."


COUNTED = (
    "Counted as facts: in the box its senses, its power, what feeds an output, and each timer, stored state or edge as "
    "one; in copper positions, comparisons, relay contacts and outputs. What the other facts bring with them is left "
    "out."
)


def moved_by_hand(name: str) -> str:
    """Asked about something that no rule and no wire decides."""
    return (
        f"{name} only follows hands and physics: no rule and no wire decides it. Ask about something that hangs on it."
    )
