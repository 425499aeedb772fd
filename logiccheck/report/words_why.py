"""Sentences about why a signal is as it is at a moment."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.engine.verdict import Kind, Undecided
from logiccheck.explain.behind import About
from logiccheck.report.lists import joined

COUNTED = (
    "Counted as facts: positions of switches, comparisons, senses, relay contacts, outputs that are really on, the "
    "power of the box, what feeds an output or supplies a relay, and each timer or stored state as one. Whatever the "
    "facts left out do (a switch stands in one position, a number has one value), the signal stays as it is. Of "
    "several sets with as few facts the one nearest to the line of the signal is told, then the first as written there."
)
BEHIND = "What is behind it"


def which_scenario(file: str, name: str, known: Sequence[str]) -> str:
    """Several scenarios, none of them named in the call."""
    return f"In which scenario? There are: {', '.join(known)}. Type: logiccheck why {file} {name} --scenario {known[0]}"


def no_scenario(file: str, name: str, requirement: str) -> str:
    """Nothing to play; `requirement` is one of the file, or nothing."""
    wanted = requirement or "REQUIREMENT"
    return (
        f"The file has no scenario. For a moment of the story in which a requirement fails, type: "
        f"logiccheck why {file} {name} --story {wanted}"
    )


def not_both() -> str:
    """A scenario and a story in one call."""
    return "Is it the scenario or the story? Only one of --scenario and --story can be looked into at a time."


def before_the_start(time: str) -> str:
    """An instant below 0."""
    return f"There is no moment at {time}: all begins at 0 s."


def after_the_end(time: str, end: str) -> str:
    """An instant that is not played."""
    return f"There is nothing at {time}: what is played ends at {end}."


def never_rests(time: str, rest: str) -> str:
    """An instant at which nothing settles; `rest`: the last moment that settles, or nothing."""
    before = f" The last moment that comes to rest is at {rest}." if rest else ""
    return f"At {time} the rules or relays chase each other for ever, so nothing is on or off there.{before}"


WITHOUT_STORY = {
    Kind.PROVED: "it is proved to hold, and nothing breaks it",
    Kind.FAILS: "that it fails is proved without one",
    Kind.NO_CASE: "what it speaks of cannot occur",
    Kind.BLOCKED: "it is blocked, which `check` explains",
    Kind.NOT_DECIDED: "it is not decided",
}


MORE = {
    Undecided.BUDGET: " (more time: --budget SECONDS)",
    Undecided.TIME_MAY_STOP_BUDGET: " (more time: --budget SECONDS)",
    Undecided.MEMORY: " (more memory: --memory MB)",
}


def without_story(name: str, verdict: Kind, undecided: Undecided | None) -> str:
    """A requirement that has no story; `undecided`: why it is not decided."""
    why = "" if undecided is None else f"; {undecided.value}{MORE.get(undecided, '')}"
    return f"{name} has no story to look into: {WITHOUT_STORY[verdict]}{why}."


INSTANT = "For an instant only"


def for_an_instant(time: str) -> str:
    """A story of a requirement that counts instants."""
    return (
        f"What the story shows is so only for an instant at {time}; told here is how all is once it has come to rest."
    )


# -------------------------------------------------------------------------------------------------------- the answer


def because(subject: str, state: str, time: str, facts: Sequence[str]) -> str:
    """The first line; without facts nothing can make it otherwise."""
    if not facts:
        return f"{subject} is {state} at {time}, and nothing that is written can make it otherwise."
    return f"{subject} is {state} at {time} because {joined(facts)}."


def moved_by_hand(name: str, value: str, time: str) -> str:
    """A switch or a number of the world."""
    return f"{name} is {value} at {time}: hands and physics move it, no rule and no wire does."


def sensed(name: str, value: str, time: str, number: str, awake: bool) -> str:
    """A number as the box senses it."""
    if not awake:
        return f"{name} reads nothing at {time} because the box has no power."
    return f"{name} reads {value} at {time} because {number} is {value} and the box has power."


def since(time: str, ago: str, happened: Sequence[str]) -> str:
    """The second line: since when, and what came at that moment; no time: from the start. `ago`: nothing at once."""
    if not time:
        return "It has been so from the start."
    when = f", when {joined(happened)}" if happened else ""
    return f"It has been so for {ago}: since {time}{when}." if ago else f"It is so from this moment on{when}."


def fewest(count: int, others: int, all_found: bool, proved: bool) -> str:
    """The third line: how few facts that is, and how many other ways there are with as few."""
    if not proved:
        return (
            f"Facts that are enough: {count}. None of them can be left out; whether fewer would do was not found out."
        )
    if others == 0:
        return f"Fewest facts that are enough: {count}. No other set is as small."
    more = f"{others}" if all_found else f"{others} or more"
    return f"Fewest facts that are enough: {count}. Other sets as small: {more}."


def keep(state: str, count: int) -> str:
    """What it means that so many facts are enough."""
    stay = "the facts of the first sentence stay" if count > 1 else "the fact of the first sentence stays"
    return f"As long as {stay} so, it stays {state}, whatever everything else does."


def went_to(name: str, value: str) -> str:
    """Hands moved it."""
    return f"{name} went to {value}"


def timer_ended(key: str, delay: bool) -> str:
    """A timer fell due; `delay`: one whose signal comes on then, without a key that of the box as it starts."""
    if not delay:
        return f"timer {key} ended"
    return f"the delay in {key} was over" if key else f"{START_UP} was over"


def timer_ends(key: str, delay: bool) -> str:
    """As `timer_ended`, of a time to come."""
    if not delay:
        return f"timer {key} ends"
    return f"the delay in {key} is over" if key else f"{START_UP} is over"


# --------------------------------------------------------------------------------------------------------- the facts


def fact(subject: str, state: str, details: str, was: bool = False) -> str:
    """One fact, and in brackets how it came to be so; `was`: of a moment before."""
    return f"{subject} {'was' if was else 'is'} {state}{f' ({details})' if details else ''}"


def called(written: str, time: str) -> str:
    """What is written, and how long the time in it is that is written as a name."""
    return f"{written} ({time})"


def until(on: str, off: str) -> str:
    """Two thresholds with their values."""
    return f"on {on}, off {off}"


def within(came: str, limits: str) -> str:
    """How it came to be so, and the values of thresholds; each may be nothing."""
    return "; ".join(filter(None, (came, limits)))


def power(on: bool, was: bool = False) -> str:
    """The power of the box as a fact."""
    return f"the box {'had' if was else 'has'} {'power' if on else 'no power'}"


def holds_itself(name: str, on: bool, time: str) -> str:
    """A relay whose coil its own contact feeds; `time`: since when, nothing: all along."""
    return f"{name} holds itself ({from_then(time)})" if on else f"{name} was not closed before"


def through_filter(sense: str, asked: bool) -> str:
    """What a sense with a filter time reads, as a fact; `asked`: about that very sense."""
    return "what its filter lets through" if asked else f"{sense} after its filter"


def reads_nothing(sense: str, was: bool = False) -> str:
    """A number sense of a box without power."""
    return f"{sense} {'read' if was else 'reads'} nothing"


def runs(start: str, left: str) -> str:
    """A timer that runs."""
    return f"its time runs since {start}, {left} left"


def phase(on: bool, start: str, left: str) -> str:
    """A blinker."""
    return f"its {'on' if on else 'off'} time runs since {start}, {left} left"


def lets_through(left: str) -> str:
    """A filter whose input differs."""
    return f"its filter lets the change through in {left}"


def at(verb: str, time: str) -> str:
    """ "set at 10 s" """
    return f"{verb} at {time}"


def never(verb: str, since: str) -> str:
    """ "never set since the box woke at 10 s" """
    return f"never {verb} {since}"


def made(came: str, facts: Sequence[str], was: bool) -> str:
    """How what is stored came to be so, and the few facts that did it; `was`: at a moment before."""
    return f"{came} because {joined(facts)}{' then' if was else ''}"


def forgotten(time: str, box: bool) -> str:
    """Memory lost."""
    return f"forgotten at {time}, when {'the box had no power' if box else 'it had no supply'}"


def from_then(time: str) -> str:
    """Since when; no time: all along."""
    return f"from {time} on" if time else "all along"


RESET_WINS = "set and reset at once, and the reset wins"
ONLY_AN_INSTANT = "an edge lasts an instant only"
START_UP, OVER, NOT_OVER = "the start-up delay", "over", "not over"
INPUT_ON = "its input is on"
NO_INPUT = "its input is off"

# -------------------------------------------------------------------------------------------------- what is behind it


def behind(told: str, about: str, at: str, facts: Sequence[str]) -> str:
    """One line of what is behind; `about`: what the reason is for, `at`: nothing for now."""
    when = f"at {at} " if at else ""
    if not facts:
        return f"{told}; {when}{about or 'that'}, and cannot be otherwise."
    if not about:
        return f"{told}, because {when}{joined(facts)}."
    return f"{told}; {when}{about}, because {joined(facts)}."


ABOUT = {
    About.ITSELF: "",
    About.SET: "what sets it",
    About.RESET: "what resets it",
    About.INPUT: "its input",
    About.INSTANT: "for an instant its input",
}


def about(what: About, on: bool) -> str:
    """What the reason is for, and how that reads."""
    return f"{ABOUT[what]} is {'on' if on else 'off'}" if ABOUT[what] else ""


KNOWN, CUT = "see above", "what is behind it was not looked for, there is too much already"


def told(told: str, end: str) -> str:
    """A fact with nothing under it; `end`: why, where something is behind it that is written."""
    return f"{told}{f': {end}' if end else ''}."
