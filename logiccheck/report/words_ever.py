"""What is said where the options of a call that asks about all situations do not go together."""

from __future__ import annotations


def one_at_a_time(first: str, second: str) -> str:
    """Two options that ask different things."""
    return f"{first} and {second} ask different things: give one of them."


def no_moment(option: str, other: str) -> str:
    """An option that names a moment, where all situations are asked about."""
    return f"{other} asks about all situations, so {option} has nothing to choose: leave one of them out."
