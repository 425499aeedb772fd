"""Sentences about files and calls that have no meaning as they stand."""

from __future__ import annotations

from collections.abc import Sequence

MOST = 12  # names listed


def opening(file: str, count: int) -> str:
    """The first line."""
    return f"{file}: CANNOT BE READ AS IT STANDS. Mistakes: {count}. Nothing was checked."


def closing(count: int) -> str:
    """The last line."""
    return f"mistakes {count}: nothing was checked"


def unknown(what: str, name: str, close: Sequence[str], known: Sequence[str]) -> str:
    """A name in the call that the file does not have."""
    if close:
        return f"There is no {what} named {name}. Did you mean {' or '.join(close)}?"
    if not known:
        return f"There is no {what} named {name}; the file has none at all."
    more = "" if len(known) <= MOST else f", and {len(known) - MOST} more"
    return f"There is no {what} named {name}. There are: {', '.join(known[:MOST])}{more}."
