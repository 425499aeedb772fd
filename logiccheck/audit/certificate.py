"""What a proof claims, in names only: clauses that hold before and after every moment of every story.

The names of stored bits and their meaning stand in MEANING.md. A clause holds when one of its literals does.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from logiccheck.audit.given import LineName
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


@dataclass(frozen=True, slots=True)
class Certificate:
    """`lines`: what is given as far as the proof rests on it."""

    clauses: tuple[Clause, ...] = ()
    lines: frozenset[LineName] = frozenset()
