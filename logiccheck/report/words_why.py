"""Sentences about why a signal is as it is at a moment."""

from __future__ import annotations

from collections.abc import Sequence


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


def without_story(name: str, verdict: str) -> str:
    """A requirement that has no story; `verdict` as `check` says it."""
    return f"{name} has no story to look into: {verdict}."


def is_so(subject: str, state: str, time: str) -> str:
    """How it is, where nothing makes it so."""
    return f"{subject} is {state} at {time}."
