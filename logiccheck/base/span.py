"""A place in a text: which file, from which character up to which; line and column exist only at the edge."""

from __future__ import annotations

from logiccheck.base.frozen import frozen


@frozen
class Span:
    """Characters ``begin`` up to, not including, ``end`` of file ``file``; offsets count characters from 0."""

    file: str
    begin: int
    end: int

    def to(self, other: Span) -> Span:
        """The span from the begin of this one to the end of `other`, in the same file."""
        return Span(self.file, self.begin, max(self.end, other.end))


NOWHERE = Span("", 0, 0)
