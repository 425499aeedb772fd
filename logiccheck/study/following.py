"""How a finding says what else is as it is because of what it is about."""

from __future__ import annotations

from collections.abc import Iterable


def quoted(words: Iterable[str]) -> str:
    """Names, one after the other."""
    return ", ".join(f"`{word}`" for word in words)


def because(never: tuple[str, ...], always: tuple[str, ...]) -> str:
    """Two sentences at most, each after a blank; nothing where nothing follows."""
    parts = []
    if never:
        parts.append(f" For this reason these are never on: {quoted(never)}.")
    if always:
        parts.append(f" For this reason these are always on: {quoted(always)}.")
    return "".join(parts)
