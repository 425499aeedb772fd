"""A text in which some words were swapped for others, and the places of the old text in the new one."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span

T = TypeVar("T")


@frozen
class Swapped:
    """The new text of file `path`; from the old offset `ends[i]` on everything stands `shifts[i]` further right."""

    path: str
    text: str
    ends: tuple[int, ...]
    shifts: tuple[int, ...]

    def moved(self, node: T) -> T:
        """The node (a dataclass, a tuple or a plain value) with all its places in this file moved."""
        return self._moved(node)  # type: ignore[no-any-return]

    def _moved(self, node: Any) -> Any:
        if isinstance(node, Span):
            return self._span(node)
        if isinstance(node, tuple):
            return tuple(self._moved(part) for part in node)
        if is_dataclass(node) and not isinstance(node, type):
            return replace(node, **{f.name: self._moved(getattr(node, f.name)) for f in fields(node)})
        return node

    def _span(self, span: Span) -> Span:
        if span.file != self.path:
            return span
        return Span(span.file, self._offset(span.begin), self._offset(span.end))

    def _offset(self, old: int) -> int:
        """The begin of a swapped word stays where it is, its end moves to the end of the new word."""
        i = bisect_right(self.ends, old)
        return old + (self.shifts[i - 1] if i else 0)

    def diagnostic(self, diagnostic: Diagnostic) -> Diagnostic:
        """The diagnostic with its places moved."""
        other = self._span(diagnostic.other) if diagnostic.other else None
        return Diagnostic(diagnostic.message, self._span(diagnostic.span), other)


def swap(path: str, text: str, swaps: Mapping[Span, str]) -> Swapped:
    """The text with the words at these places (none in another) swapped for others."""
    parts: list[str] = []
    ends: list[int] = []
    shifts: list[int] = []
    at = shift = 0
    for span, word in sorted(swaps.items(), key=lambda item: item[0].begin):
        parts += [text[at : span.begin], word]
        at = span.end
        shift += len(word) - (span.end - span.begin)
        ends.append(at)
        shifts.append(shift)
    return Swapped(path, "".join([*parts, text[at:]]), tuple(ends), tuple(shifts))
