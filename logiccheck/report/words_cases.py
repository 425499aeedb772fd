"""Sentences about when a requirement decides something, and why it never does."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.explain.aside import Binds
from logiccheck.report.plain import typed

DECIDES, BUT = "decides", "but"

AT_WILL = "It asks nothing of the rules: it holds even with every output switched at will."
NO_SINGLE = (
    "Nothing in copper or box that it names outside of timers and stored states, read otherwise by itself, could ever "
    "break it: proved for all situations."
)
NONE_FOUND = "No situation was found in which it decides something."

ENDS = {
    Binds.ENDS: "What may not go on for long ends here in time.",
    Binds.FOLLOWS: "What is called for is there in time.",
    Binds.LASTS: "From here on it has to last.",
    Binds.BEGINS: "Here it begins, and what it needs came before.",
    Binds.WAITS: "Here it is off, and has to wait.",
    Binds.HAPPENS: "Here it is so.",
}


def story(steps: Sequence[str], end: str) -> str:
    """How it comes to that, and what there is to see."""
    return f"{'; '.join(steps)}. {end}"


def otherwise(name: str, state: str) -> str:
    """What would break it; `state` is how the thing does not read there."""
    return f"Were {name} {state} here, it would be broken."


def otherwise_so_long(name: str, state: str) -> str:
    """As `otherwise`, of what may be so, but not for so long as the story has lasted."""
    return f"Were {name} {state} all this time and a little longer, it would be broken."


def how_to_see(file: str) -> str:
    """The call that shows when each requirement decides something."""
    return f"To see when each requirement decides something: logiccheck check {typed(file)} --cases"


# ------------------------------------------------------------------------------------------------------ no case


BY_RULES = "These rules keep it away: with every output switched at will it could be so."
BY_COPPER = "As it is wired this cannot happen, whatever is given."
BY_ANYTHING = "This could not be so with every output switched at will, nor if nothing were given."


AND_THESE = "And these, of another file:"
_EXCLUDED = "What is given excludes it, even with every output switched at will."


def by_given(lines: int) -> str:
    """What is given excludes it."""
    if lines == 1:
        return f"{_EXCLUDED} This line does it alone:"
    return f"{_EXCLUDED} It takes all of these lines: {lines}."
