"""Sentences about why a signal is on or off at the end of a story."""

from __future__ import annotations


def because(name: str, on: bool, single: bool, count: int) -> str:
    """`single`: each marked term alone decides; else they decide only together. `count` of marked terms."""
    state, other = ("on", "off") if on else ("off", "on")
    if count == 0:
        return f"{name} is always {state}:"
    if single and count == 1:
        return f"{name} is {state} because of the marked term; were that the other way, it would be {other}:"
    if single:
        return f"{name} is {state} because of the marked terms; were any of them the other way, it would be {other}:"
    return f"{name} is {state} because of the marked terms together:"


def without_power(name: str) -> str:
    """The whole box is off."""
    return f"{name} is off: the box has no power."


def without_supply(name: str) -> str:
    """A relay drops without its supply."""
    return f"{name} is off: what supplies the relay is dead."


def without_feed(name: str, feed: str) -> str:
    """An output is told to be on, and has nothing to pass on."""
    return f"{name} is told to be on, but {feed}, which feeds it, is dead."


def wire(name: str, live: bool) -> str:
    """What is marked lets it through, or keeps it off."""
    return f"{name} is live through what is marked:" if live else f"{name} is dead; what is marked is open:"
