"""Words around rules as they are understood."""

from __future__ import annotations

WRITTEN = "as written"
UNFOLDED = "unfolded"
SIMPLIFIED = "simplified"


def on_in_these_ways(shown: int, all_of_them: int | None) -> str:
    """Above the list of minimal terms; None: they could not all be found."""
    if all_of_them is None:
        return "on in more ways than can be listed"
    rest = all_of_them - shown
    return "on in these ways" if not rest else f"on in these ways, the shortest; not shown: {rest}"


def opening(label: str, count: int) -> str:
    """The first line."""
    return f"{label}: rules and outputs as they are understood: {count}."
