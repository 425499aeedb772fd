"""Sentences about edits that would mend a requirement, and about why none is told."""

from __future__ import annotations

from collections.abc import Sequence
from typing import assert_never

from logiccheck.explain.mending import Cut

_AGAIN = "all that it can matter to was checked again, and nothing of it gets worse"


def mends(count: int) -> str:
    """Stands over one edit, or several of which one is enough."""
    if count == 1:
        return f"It would hold with this edit (a suggestion; {_AGAIN}):"
    return f"It would hold with any one of these edits (suggestions; {_AGAIN}):"


def calms(count: int) -> str:
    """The same over edits with which all comes to rest."""
    if count == 1:
        return f"All would come to rest with this edit (a suggestion; {_AGAIN}):"
    return f"All would come to rest with any one of these edits (suggestions; {_AGAIN}):"


def mends_too(name: str) -> str:
    """What was told of another requirement mends this one as well."""
    return f"It would hold with what is suggested for {name}, too."


def none_mends(tried: int, kinds: Sequence[str]) -> str:
    """All edits of the kinds that make sense here were in vain."""
    if not tried:
        return "No edit to suggest: none of the kinds that are tried fits here."
    found = "No edit to suggest: none of those tried was shown to mend it and spoil nothing."
    return f"{found} Tried: {tried}. Kinds: {'; '.join(kinds)}."


def not_all_tried(cut: Cut) -> str:
    """The search for edits came to no end."""
    match cut:
        case Cut.TIME:
            return "No edit to suggest: the time for looking ran out. More time: --edits SECONDS."
        case Cut.MEMORY:
            return "No edit to suggest: the memory for looking ran out. More memory: --memory MB."
        case Cut.INTERRUPTED:
            return "No edit to suggest: looking for one was interrupted."
        case _:
            assert_never(cut)
