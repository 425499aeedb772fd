"""What is said where the fault is ours."""

from __future__ import annotations

from collections.abc import Sequence

OURS = "This is our bug, not a mistake in your file."
ALL_LOST = f"{OURS} Nothing was decided."


def others_stand(names: Sequence[str]) -> str:
    """The requirements that have no verdict because of it, without a name where it was met beside the verdicts; all
    else stands."""
    lost = [name for name in names if name]
    if not lost:
        return f"{OURS} All verdicts stand; something that is said beside them is missing."
    return f"{OURS} Not decided because of it: {', '.join(lost)}. All else stands."


def left_alone(files: Sequence[str]) -> str:
    """Files whose layout cannot be changed without changing what they say."""
    return f"{OURS} Left alone, because laid out anew it would not say the same: {', '.join(files)}."
