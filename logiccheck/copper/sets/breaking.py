"""A vehicle in which things can break, each at any moment and for good, and what came of asking for its cut sets."""

from __future__ import annotations

from collections.abc import Hashable
from typing import TypeAlias

from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.lang.program import Program, Requirement
from logiccheck.model.story import Story

Faults: TypeAlias = frozenset[int]  # numbers of faults in `Breaking.names`


@frozen
class Breaking:
    """`program` has a switch of the world with two positions for each fault, `names[i]`: in the second while the fault
    is there. It comes whenever it likes, which may be time 0, and never goes. `parts[i]` is the part it is a fault of:
    a part has one fault at most in one set. `program` asks nothing.
    """

    program: Program
    names: tuple[str, ...]
    parts: tuple[Hashable, ...]

    def clash(self, one: int, other: int) -> bool:
        """Two different faults of one part."""
        return one != other and self.parts[one] == self.parts[other]


@frozen
class CutSet:
    """`faults` make the requirement fail, and none of its proper subsets does. `story` shows it, with these faults at
    its end and no others at any time; it plays on the program of the `Breaking`. There may be shorter ones."""

    faults: Faults
    story: Story


@frozen
class Barred:
    """`faults` together stand in the way of answers: with them what is given contradicts itself or stops time, or
    moments may fail to settle. No set that holds them was asked."""

    faults: Faults
    by: Obstacle


@frozen
class Cuts:
    """`sets` are cut sets of the requirement, those with the fewest faults first. All that have at most `complete`
    faults are among them, `barred` ones aside; None: not even whether it fails with no fault at all was decided.
    `why`: what ended the search before `order` was reached; `bug`: the mistake in this program that did."""

    requirement: Requirement
    order: int
    sets: tuple[CutSet, ...]
    complete: int | None
    barred: tuple[Barred, ...] = ()
    why: Undecided | Obstacle | None = None
    bug: Bug | None = None
