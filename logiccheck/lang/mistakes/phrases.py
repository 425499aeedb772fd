"""Small phrases that sentences are made of: lists of names in words."""

from __future__ import annotations

from collections.abc import Sequence


def listed(names: Sequence[str], join: str = "and", most: int = 8) -> str:
    """`a`, `b` and `c`; of a long list only the first."""
    quoted = [f"`{name}`" for name in names[:most]]
    if len(names) > most:
        return ", ".join(quoted) + " and more"
    if len(quoted) < 2:
        return "".join(quoted)
    return f"{', '.join(quoted[:-1])} {join} {quoted[-1]}"


def one_of(names: Sequence[str]) -> str:
    """`a`, `b` or `c`."""
    return listed(names, "or", 6)
