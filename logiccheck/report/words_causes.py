"""Sentences about why a signal is on or off at the end of a story."""

from __future__ import annotations

AND_HERE = "It also hangs on what is marked here:"  # lines that belong to the sentence before


def condition_at(place: str) -> str:
    """A condition too long for a sentence."""
    return f"the condition at {place}"


def hangs_on(name: str) -> str:
    """Stands over the lines of a signal that was spoken of further up."""
    return f"What {name} hangs on is marked here:"


def joint(head: str, tail: str, ground: bool) -> str:
    """A wire hangs on another that is dead, or not grounded, over a closed contact."""
    return f"{head} is connected with {tail}, which is {'not grounded' if ground else 'dead'}:"


def because(name: str, state: str, other: str, single: bool, count: int) -> str:
    """`state` is how it is, `other` the opposite; `single`: each marked term alone decides; else they decide only
    together. `count` of marked terms, at least 1.
    """
    if single and count == 1:
        return f"{name} is {state} because of the marked term; were that the opposite, it would be {other}:"
    if single:
        return f"{name} is {state} because of the marked terms; were any one of them the opposite, it would be {other}:"
    return f"{name} is {state} because of the marked terms together:"


def always(name: str, state: str, other: str, on: bool) -> str:
    """What is written names nothing that could turn it; `state` is how it is, `other` the opposite."""
    return f"{name} is {state} whenever it has power:" if on else f"{name} is never {other}:"


def without_power(name: str, feed: str) -> str:
    """The whole box is off."""
    return f"{name} is off: the box has no power, {feed} is dead."


def not_up_yet(name: str) -> str:
    """The box has its supply, and is still starting."""
    return f"{name} is off: the box has its supply, and is still starting up:"


def without_supply(name: str) -> str:
    """A relay drops without its supply."""
    return f"{name} is open: what supplies the relay is dead:"


def late(name: str, closed: bool) -> str:
    """In a reaction that does not last, the contact is not where the coil is."""
    return f"{name} is {'still closed' if closed else 'not closed yet'}: a contact follows its coil one reaction later:"


def reads(name: str, on: bool, wire: str, ground: bool) -> str:
    """A sense follows its wire."""
    return f"{name} is {'on' if on else 'off'}: {wire} is {'' if on else 'not '}{'grounded' if ground else 'live'}:"


def filtered(name: str, on: bool) -> str:
    """The wire has changed, and the filter has not let that through."""
    return f"{name} is still {'on' if on else 'off'}: its filter waits whether the change lasts:"


def without_feed(name: str, feed: str) -> str:
    """An output is told to be on, and has nothing to pass on."""
    return f"{name} is told to be on, but {feed}, which feeds it, is dead:"


def wire(name: str, ground: bool, on: bool) -> str:
    """What is marked lets it through, or keeps it off."""
    state = "grounded" if ground else "live"
    return f"{name} is {state} through what is marked:" if on else f"{name} is not {state}; what is marked is open:"


def exclude(count: int, powered: bool) -> str:
    """Stands over what is marked, which keeps something from ever being so; `powered`: while the box has power."""
    while_ = " while the box has power" if powered else ""
    return f"This can never be so{while_}:" if count == 1 else f"These can never all be so at once{while_}:"


def with_these() -> str:
    """Stands over the rest of that, in another file."""
    return "nor together with these:"


def chases(name: str) -> str:
    """One of those that never come to rest."""
    return f"{name} changes for ever:"
