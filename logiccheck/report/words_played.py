"""Sentences about scenarios that were played."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.frozen import frozen
from logiccheck.report.lists import joined

RAISED = "on (live, closed)"
LOWERED = "off (dead, open)"
NOTHING = "nothing"  # what a number sense reads without power
NOT_TO_SCALE = "Time is not to scale: short stretches are drawn longer than they are."
CAUTION = "A scenario is one way things can go; what holds in all ways, only `check` can tell."


@frozen
class Tally:
    """What came of playing: scenarios, expectations, requirements broken in a lawful way, scenarios without rest."""

    scenarios: int
    met: int = 0
    expected: int = 0
    stuck: int = 0
    broken: int = 0


def opening(label: str, tally: Tally) -> str:
    """The first line."""
    return f"{label}: {_opening(tally)}"


def _opening(tally: Tally) -> str:
    met = f" Expectations met: {tally.met} of {tally.expected}." if tally.expected else ""
    if tally.stuck:
        return f"NEVER COMES TO REST in scenarios played: {tally.stuck} of {tally.scenarios}."
    if tally.scenarios == 0:
        return "NOTHING TO PLAY. The file has no scenario."
    if tally.broken:
        return f"BREAKS WHAT IS REQUIRED. Requirements broken: {tally.broken}.{met}"
    if tally.met < tally.expected:
        return f"NOT AS EXPECTED.{met}"
    return f"as expected.{met}" if tally.expected else "played. Nothing was expected."


def closing(tally: Tally) -> str:
    """The last line."""
    if tally.stuck:
        end = "never comes to rest"
    elif tally.scenarios == 0:
        end = "nothing to play"
    elif tally.broken:
        end = "breaks what is required"
    elif tally.met < tally.expected:
        end = "not as expected"
    else:
        end = "as expected" if tally.expected else "nothing was expected"
    counts = [f"scenarios {tally.scenarios}", f"expectations met {tally.met}", f"not met {tally.expected - tally.met}"]
    if tally.broken:
        counts.append(f"requirements broken {tally.broken}")
    return f"{', '.join(counts)}: {end}"


SHORT_CIRCUIT = "never a wire both live and grounded"  # what is required of every vehicle, written or not


def breaks(name: str, text: str) -> str:
    """A requirement that the scenario breaks."""
    return f"BREAKS {name}: {text}"


def ruled_out(wrong: str) -> str:
    """How the requirement is broken, in a scenario that cannot happen."""
    return f"{wrong} But what is given rules this scenario out."


def expectations(met: int, expected: int) -> str:
    """How one scenario went."""
    return f"Expectations met: {met} of {expected}." if expected else "Nothing is expected in it."


def expectation(time: str, text: str, held: bool) -> str:
    """What was expected then, and whether it was so."""
    return f"{time} as expected: {text}" if held else f"{time} NOT as expected: {text}"


def named(time: str, text: str) -> str:
    """What was expected then, as a name that is the same whether it was so or not."""
    return f"{time}: {text}"


def first_not_so(sentence: str, time: str, after: bool) -> str:
    """What was expected of a stretch of time, and where in it that ends to be so; `after`: right after that time."""
    return f"{sentence}. It is not so {'just after' if after else 'at'} {time}."


def because(name: str, state: str, facts: Sequence[str]) -> str:
    """Why a signal that was expected otherwise is as it is; without facts nothing can make it otherwise."""
    if not facts:
        return f"{name} is {state}, and nothing that is written can make it otherwise."
    return f"{name} is {state} because {joined(facts)}."


def at(time: str) -> str:
    """One instant."""
    return f"At {time}"


def stretch(begin: str, end: str) -> str:
    """A stretch of time, both ends included."""
    return f"From {begin} to {end}"


def never_settles(time: str) -> str:
    """Played up to here."""
    return f"At {time} the rules or relays chase each other for ever; nothing later was played."


def woke_within(time: str) -> str:
    """The box lost its supply and got it back within one instant."""
    return f"At {time} the box is without supply for an instant: it forgets all but what is retained, and wakes anew."


def breaks_given(time: str, given: str) -> str:
    """The scenario does what the file says cannot happen."""
    return f"From {time} on this scenario breaks what is given: {given}"


def one_by_one(name: str) -> str:
    """A switch that passes its positions in turn."""
    return f"{name} moves one position at a time"


def without_jumps(name: str) -> str:
    """A number that passes through every value on its way."""
    return f"{name} without jumps"


def unused_run(key: str, start: str) -> str:
    """A duration was given to a run that does not begin."""
    return f"No run of {key} begins at {start}, so the duration given for it was not used."
