"""Sentences about what would turn a signal: what hands could do, what time does alone, and single terms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.report.lists import joined

TITLE = "What would turn it"
DEEP = "--deep shows them"

BOTH, NOT_BOTH = "live and grounded at once", "not both"
NO_MORE = {"live": "not live", "grounded": "not grounded"}  # of a wire that may be the other then
TURNS: Mapping[str, tuple[str, str]] = {  # how a signal comes to be so: "it would ...", "it ..."
    "on": ("come on", "comes on"),
    "off": ("go off", "goes off"),
    "live": ("go live", "goes live"),
    "dead": ("go dead", "goes dead"),
    "not live": ("be live no more", "is live no more"),
    "not grounded": ("be grounded no more", "is grounded no more"),
    NOT_BOTH: ("be both no more", "is both no more"),
    "closed": ("close", "closes"),
    "open": ("open", "opens"),
    "lost": ("be lost", "is lost"),
    "powered": ("get power", "gets power"),
    "without power": ("lose power", "loses power"),
}

UNMET = "This scenario breaks what is given before this moment; those lines are left out here."
NOMINAL = "Timers with a tolerance run their nominal time here."
NO_HANDS = "No line behind it names anything that hands or physics move."
MOVES = (
    "Each thing that is moved counts as one move; a switch that goes one position at a time, as one for each position."
)


def _would(state: str) -> str:
    return TURNS.get(state, (f"be {state}", ""))[0]


def _does(state: str) -> str:
    return TURNS.get(state, ("", f"is {state}"))[1]


# ------------------------------------------------------------------------------------------------------------ hands


def switch_is(name: str, position: str, past: Sequence[str]) -> str:
    """Where a switch is moved to, by way of these positions."""
    return f"{name} is {position}" + (f" (past {', '.join(past)})" if past else "")


def number_is(name: str, low: str, high: str, low_too: bool, high_too: bool) -> str:
    """What a number is moved to: from `low` to `high`, either of them empty where nothing bounds it, and whether each
    of them belongs to it."""
    if low == high:
        return f"{name} is {low}"
    bounds = [f"at least {low}" if low_too else f"above {low}"] if low else []
    bounds += [f"at most {high}" if high_too else f"below {high}"] if high else []
    return f"{name} {' and '.join(bounds)}"


def at_once(state: str, changes: Sequence[str], more: int) -> str:
    """Each of these changes makes it so at once, and so many others that are not shown."""
    return f"It would {_would(state)} at once if: {'; or '.join(changes)}.{_others(more)}"


def _others(more: int) -> str:
    return f" More that are as small: {more} ({DEEP})." if more else ""


def not_at_once(state: str, tried: int) -> str:
    """No change of up to so many moves does it, all of them made at the same instant."""
    if not tried:
        return "There is too much that hands could do at once to try it."
    none = f"Nothing that is moved at this one moment makes it {_would(state)} at once."
    return f"{none} Moves tried together, up to: {tried}."


def later(state: str, change: str, time: str, due: Sequence[str], more: int) -> str:
    """It turns only after a while; `due`: what falls due then, in words."""
    return f"It would {_would(state)} at {time}{_ends(due)}, if just now: {change}.{_others(more)}"


def not_later(state: str, tried: int) -> str:
    """Nor does any of up to so many moves after a while, when nothing moves after them."""
    return f"Nor does it {_would(state)} later, if nothing is moved after that. Moves tried together, up to: {tried}."


def left_out(changes: Sequence[str], more: int) -> str:
    """These changes, and so many others that are not shown, end in a chase, and so are not told as turning it."""
    told = "; ".join(changes)
    return f"Moves after which rules or relays chase each other for ever were left out: {told}.{_others(more)}"


APART = "Moves one after the other, such as to let go and try again, were not tried: it may well turn by them."


# ------------------------------------------------------------------------------------------------------------- time


def alone(state: str, time: str, due: Sequence[str]) -> str:
    """Time turns it; `due`: what falls due then, in words."""
    return f"If nothing else moves, it {_does(state)} at {time}{_ends(due)}."


def not_sooner(state: str, tried: int) -> str:
    """Time turns it, and none of up to so many moves does before that, when nothing moves after them."""
    return (
        f"None of the moves tried would make it {_would(state)} sooner than that, with nothing moved after them; "
        f"at most together: {tried}."
    )


def _ends(due: Sequence[str]) -> str:
    return f", when {joined(due)}" if due else ""


def stays(state: str) -> str:
    """Time does not turn it."""
    return f"If nothing else moves, it stays {state}."


def unfollowed(state: str, time: str) -> str:
    """Not as far as was looked."""
    return f"If nothing else moves, it stays {state} up to {time}; later than that was not looked."


def chases(time: str) -> str:
    """Something never comes to rest."""
    return (
        f"If nothing else moves, rules or relays chase each other for ever at {time}; "
        "what is on or off then, nobody can say."
    )


def has_to_move(time: str, given: str) -> str:
    """What is given does not let all rest."""
    return f"By {time} something has to move, because this is given: {given}."


# ------------------------------------------------------------------------------------------------------------ terms


def terms(state: str, count: int) -> str:
    """Each of the marked terms decides alone; `count` of them, at least 1."""
    which = "the marked term" if count == 1 else "any one of the marked terms"
    return f"If {which} were the opposite, it would {_would(state)}:"


def more_lines(count: int) -> str:
    """Lines with such terms that are not shown."""
    return f"More lines with such a term: {count} ({DEEP})."


def no_terms(state: str) -> str:
    """No term decides alone."""
    return f"No single term, were it the opposite, would make it {_would(state)}."
