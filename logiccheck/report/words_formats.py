"""Sentences that stand only in files for machines: what their values mean, and what they leave out."""

from __future__ import annotations

from collections.abc import Sequence

CHECKLISTS = "Checklists that ship with logiccheck, here as they read with their roles bound to names of the vehicle."

VALUES = (
    "Values are those that a moment settles to; what comes and goes within one moment is not shown.",
    "A wire reads 1 live, 0 grounded, z dead (neither), x SHORT (both).",
    "A number sense reads nan while the box is without power.",
)
EXACT = "All times are exact."
BEYOND_ASCII = "Letters beyond ASCII stand as numbers: \\x and two hexadecimal digits, \\u and four, \\U and eight."


def never_settles(time: str) -> str:
    """The last moment; nothing comes after it."""
    return (
        f"At {time} the rules or relays chase each other for ever: what goes on changing reads x, or nan if a number."
    )


def rounded(moments: Sequence[tuple[str, int]]) -> str:
    """Moments that are at no whole microsecond, each with the microsecond at which it stands."""
    listed = ", ".join(f"{time} at {stamp} us" for time, stamp in moments)
    rule = "which stand at the whole microsecond before, yet after each moment before them"
    return f"Times are exact but for these, {rule}: {listed}."


def one_scenario(names: Sequence[str]) -> str:
    """Waveforms were asked for, but not of which scenario."""
    which = f"Name one of these: {', '.join(names)}." if names else "There is none."
    return f"Waveforms are those of one scenario. {which}"


def hashed(path: str, sha256: str) -> str:
    """A file that was read, in just this state."""
    return f"{path}: sha-256 {sha256}"


def signal(name: str, label: str, values: str) -> str:
    """A signal: its name, its label where there is one, what its values mean."""
    labelled = name if label in ("", name) else f"{name}: {label}"
    return labelled + (f" ({values})" if values else "")
