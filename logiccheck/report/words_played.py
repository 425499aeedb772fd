"""Sentences about scenarios that were played."""

from __future__ import annotations

CAUTION = "A scenario is one way things can go; what holds in all ways, only `check` can tell."


def opening(label: str, scenarios: int, met: int, expected: int, stuck: int) -> str:
    """The first line."""
    if stuck:
        return f"{label}: NEVER COMES TO REST in scenarios played: {stuck} of {scenarios}."
    if scenarios == 0:
        return f"{label}: NOTHING TO PLAY. The file has no scenario."
    if met < expected:
        return f"{label}: NOT AS EXPECTED. Expectations met: {met} of {expected}."
    if expected:
        return f"{label}: as expected. Expectations met: {met} of {expected}."
    return f"{label}: played. Nothing was expected."


def closing(scenarios: int, met: int, expected: int, stuck: int) -> str:
    """The last line."""
    if stuck:
        end = "never comes to rest"
    elif scenarios == 0:
        end = "nothing to play"
    elif met < expected:
        end = "not as expected"
    else:
        end = "as expected" if expected else "nothing was expected"
    return f"scenarios {scenarios}, expectations met {met}, not met {expected - met}: {end}"


def expectations(met: int, expected: int) -> str:
    """How one scenario went."""
    return f"Expectations met: {met} of {expected}." if expected else "Nothing is expected in it."


def expectation(time: str, text: str, held: bool) -> str:
    """What was expected then, and whether it was so."""
    return f"{time} as expected: {text}" if held else f"{time} NOT as expected: {text}"


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
