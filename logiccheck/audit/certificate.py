"""What a proof claims, in names only: clauses and covers that hold before and after every moment of every story.

The names of stored bits and their meaning stand in MEANING.md. A clause holds when one of its literals does, a cover
when one of its parts does.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

from logiccheck.audit.given import LineName
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Micros


class Ahead(NamedTuple):
    """The deadlines of two running timers, or of one and the moment itself (`other` None), held against each other.

    deadline of `timer` - deadline of `other`: more than `bound` microseconds, or `or_same`: at least that. False unless
    both run. The moment is the last one before the clause is looked at.
    """

    timer: str
    other: str | None
    bound: Micros
    or_same: bool


Name: TypeAlias = str | Ahead
Clause: TypeAlias = tuple[tuple[Name, bool], ...]


Sort: TypeAlias = int  # of what is stored: NONE, ALL, or 2 + the number of a choice, which says of which sort it is
NONE: Sort = 0  # nothing is of this sort
ALL: Sort = 1  # everything is


class Choice(NamedTuple):
    """Of the sort `then` while the bit is true, else of the sort `other`; both are known before this one."""

    bit: str
    then: Sort
    other: Sort


class Part(NamedTuple):
    """It holds when what is stored is of this sort, and each comparison is as is said of it."""

    sort: Sort
    apart: tuple[tuple[Ahead, bool], ...] = ()


@frozen
class Cover:
    """Everything that can be stored, part by part; `choices` are numbered from 0."""

    choices: tuple[Choice, ...]
    parts: tuple[Part, ...]


@frozen
class Certificate:
    """`lines`: what is given as far as the proof rests on it."""

    clauses: tuple[Clause, ...] = ()
    lines: frozenset[LineName] = frozenset()
    covers: tuple[Cover, ...] = ()

    def names(self) -> Iterator[Name]:
        """Everything it speaks of, as often as it does."""
        for clause in self.clauses:
            yield from (name for name, _ in clause)
        for cover in self.covers:
            yield from (choice.bit for choice in cover.choices)
            yield from (name for part in cover.parts for name, _ in part.apart)
