"""All that is reached from something over ways that lead on."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import TypeVar

T = TypeVar("T", bound=Hashable)


def spread(start: Iterable[T], ways: Iterable[tuple[T, T]]) -> set[T]:
    """All that is reached from these, and they themselves; a way leads from the first of its two to the second."""
    onward: dict[T, list[T]] = {}
    for tail, head in ways:
        onward.setdefault(tail, []).append(head)
    found = set(start)
    waiting = list(found)
    while waiting:
        news = set(onward.get(waiting.pop(), ())) - found
        found |= news
        waiting.extend(news)
    return found
