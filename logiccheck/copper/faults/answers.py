"""What becomes of each requirement under each single fault, and whether anybody notices the fault."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.parts import Fault, When
from logiccheck.engine.verdict import Kind, Obstacle, Undecided
from logiccheck.lang.program import Requirement, TellTale
from logiccheck.model.story import Story


@frozen
class Holds:
    """Proved: with this fault, too, it is never broken; what is `possible` still is."""


@frozen
class Fails:
    """`story` plays on the vehicle that has this fault alone (`together(program, (fault,), when)`); None for what is
    `possible`: that it no longer is so is a proof. `shortest`: no story that shows it has fewer moments."""

    story: Story | None
    shortest: bool = True


@frozen
class Open:
    """Not decided; `why` is None where the search was not begun."""

    why: Undecided | None = None


@frozen
class Blocked:
    """With this fault something stands in the way of every answer that rests on it."""

    by: Obstacle


Outcome: TypeAlias = Holds | Fails | Open | Blocked


@frozen
class Pair:
    """One fault and one requirement; None where that is not asked: a fault that cannot be there in that manner, and of
    what is `possible` all but the start."""

    fault: Fault
    requirement: Requirement
    start: Outcome | None = None
    later: Outcome | None = None
    loose: Outcome | None = None
    touched: bool = True  # the fault can matter to it by name; else it holds as it does on the whole vehicle

    def outcomes(self) -> Iterator[tuple[When, Outcome]]:
        """What was asked, in the order in which it is told."""
        asked = ((When.START, self.start), (When.LATER, self.later), (When.LOOSE, self.loose))
        yield from ((when, outcome) for when, outcome in asked if outcome is not None)

    @property
    def failing(self) -> tuple[When, Fails] | None:
        """The first manner in which it fails."""
        return next(((when, each) for when, each in self.outcomes() if isinstance(each, Fails)), None)

    @property
    def is_proved(self) -> bool:
        return all(isinstance(outcome, Holds) for _, outcome in self.outcomes())


@frozen
class Hidden:
    """Nobody need notice the fault: `story` has it, in this manner, and the tell-tale `by` does not show it in time, as
    no other does in every story; `story` is None where none has a story in which it could."""

    when: When | None = None
    story: Story | None = None
    by: TellTale | None = None


@frozen
class Noticed:
    """This tell-tale shows it in time, in every story that has the fault long enough; and there are such stories."""

    by: TellTale


@frozen
class Unclear:
    """Whether anybody notices it is not decided, or is blocked."""

    why: Undecided | Obstacle | None = None


Notice: TypeAlias = Hidden | Noticed | Unclear


@frozen
class Tales:
    """The tell-tales of a vehicle by what they do while nothing is broken.

    `counted`: in some situation of their `while` they do not come on in time; these alone can show a fault. `always`:
    they come on in time with nothing broken, too. `unknown`: whether that is so is not decided. `at_times`: of those
    counted, they can be on; `unclear`: of those counted, it is not decided whether they can.
    """

    counted: tuple[TellTale, ...] = ()
    always: tuple[TellTale, ...] = ()
    unknown: tuple[TellTale, ...] = ()
    at_times: tuple[TellTale, ...] = ()
    unclear: tuple[TellTale, ...] = ()
    bugs: tuple[Bug, ...] = ()


@frozen
class Unasked:
    """A requirement that is not proved of the whole vehicle, and so not asked of broken ones."""

    requirement: Requirement
    kind: Kind


@frozen
class Broken:
    """All single faults of a vehicle, in the order of the file, and all requirements, the built-in one last.

    `pairs`: for each fault each requirement that was asked. `notices`: of each fault by its place in `faults`; empty
    where it was not asked. `idle`: names of those asked that have no case on the vehicle as it is. `interrupted`: what
    was not decided by then is open.
    """

    faults: tuple[Fault, ...]
    asked: tuple[Requirement, ...]
    unasked: tuple[Unasked, ...]
    pairs: tuple[Pair, ...]
    notices: tuple[Notice, ...] = ()
    interrupted: bool = False
    bugs: tuple[Bug, ...] = ()  # mistakes in this program, each of which left something not decided
    idle: frozenset[str] = frozenset()
    tales: Tales | None = None  # None where that was not asked
