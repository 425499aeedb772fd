"""Small phrases that sentences are made of: lists of names in words."""

from __future__ import annotations

from collections.abc import Sequence

END = 6  # names of a long way that are shown at each of its ends
REPEATED = 80  # characters of the user's text that a sentence repeats


def listed(names: Sequence[str], join: str = "and", most: int = 8) -> str:
    """`a`, `b` and `c`; of a long list only the first."""
    quoted = [f"`{name}`" for name in names[:most]]
    if len(names) > most:
        return ", ".join(quoted) + " and more"
    if len(quoted) < 2:
        return "".join(quoted)
    return f"{', '.join(quoted[:-1])} {join} {quoted[-1]}"


def begin(text: str) -> str:
    """The text, or the begin of a long one: all of it stands in the line that is shown."""
    return text if len(text) <= REPEATED else f"{text[:REPEATED]}..."


def way(names: Sequence[str]) -> str:
    """a -> b -> c; of a long way the two ends."""
    if len(names) > 2 * END:
        names = (*names[:END], f"({len(names) - 2 * END} more)", *names[-END:])
    return " -> ".join(names)


def one_of(names: Sequence[str]) -> str:
    """`a`, `b` or `c`."""
    return listed(names, "or", 6)
