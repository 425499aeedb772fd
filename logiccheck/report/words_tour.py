"""Sentences about a vehicle shown at work: how each thing comes on, and how it goes off again."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.report.plain import typed

START_UP, SHUT_DOWN = "start-up", "shut-down"
PROVED = "proved for all situations, orders and timings"
NOTHING = "Nothing is switched here: there is no output, no relay and no load."
NO_START_UP = f"it never comes on after it was off: {PROVED}"
NO_SHUT_DOWN = f"it never falls asleep: {PROVED}"


def opening(vehicle: str, on: int, off: int, of: int) -> str:
    """How much can be shown."""
    return f"{vehicle}: shown coming on: {on} of {of}; going off again: {off} of {of}."


CLAIM = (
    "Each is a shortest story; of those in which something goes off, the shortest at whose end every source that can "
    "matter to it is live, if one was found."
)


def again(state: str) -> str:
    """The word before the story in which it is no longer so."""
    return f"{state} again"


def never(state: str) -> str:
    """It cannot be shown, and why."""
    return f"never {state}: {PROVED}"


def stays(state: str) -> str:
    """It comes on and does not go off."""
    return f"never, once it is {state}: {PROVED}"


def story(steps: Sequence[str]) -> str:
    """How it comes to that, in one line."""
    return "; ".join(steps)


def rest(steps: Sequence[str]) -> str:
    """How it goes on after the line above."""
    return f"then {'; '.join(steps)}"


def kept(subject: str, word: str) -> str:
    """What the file with one of the stories is called."""
    return f"{subject}: {word}"


def how_to_see(file: str) -> str:
    """The calls that show and keep the whole stories."""
    return f"The whole stories: logiccheck tour {typed(file)} --deep; to keep and play them: --save FOLDER"


def how_to_tour(file: str) -> str:
    """The call that shows the vehicle at work."""
    return f"To see it at work, each thing coming on and going off: logiccheck tour {typed(file)}"
