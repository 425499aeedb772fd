"""Words around rules as they are understood."""

from __future__ import annotations

WRITTEN = "as written"
UNFOLDED = "unfolded"
SIMPLIFIED = "simplified"


def opening(label: str, count: int) -> str:
    """The first line."""
    return f"{label}: rules and outputs as they are understood: {count}."
