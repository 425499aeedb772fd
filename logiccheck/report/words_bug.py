"""What is said where the fault is ours."""

from __future__ import annotations

from collections.abc import Sequence

OURS = "This is our bug, not a mistake in your file."
ALL_LOST = f"{OURS} Nothing was decided."


def others_stand(names: Sequence[str]) -> str:
    """The requirements that have no verdict because of it; all else stands."""
    return f"{OURS} Not decided because of it: {', '.join(names)}. All else stands."
