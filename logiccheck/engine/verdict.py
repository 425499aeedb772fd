"""The five verdicts, what each rests on, and what a whole check found."""

from __future__ import annotations

from dataclasses import field
from enum import Enum

from logiccheck.audit.grounds import Grounds
from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.engine.engines import Engine
from logiccheck.lang.program import Expr, Requirement
from logiccheck.model.circuit.system import Line
from logiccheck.model.story import Story

SHORT_CIRCUIT = "no_short_circuit"  # the requirement that every vehicle has, written or not


class Kind(Enum):
    PROVED = "proved"
    FAILS = "fails"
    NOT_DECIDED = "not decided"
    NO_CASE = "no case"
    BLOCKED = "blocked"


class Undecided(Enum):
    """Why a requirement is not decided."""

    TIMER_ARITHMETIC = "the answer hangs on how long several timers take together"
    BUDGET = "the time for it ran out"
    MEMORY = "the memory for it ran out"
    LOST = "the process that looked at it ended"
    INTERRUPTED = "it was interrupted"
    OUR_BUG = "a mistake in this program was met"
    TIME_MAY_STOP = "no way was found to decide whether what is given stops time"
    TIME_MAY_STOP_BUDGET = "the time to decide whether what is given stops time ran out"


class Obstacle(Enum):
    """What blocks every verdict that rests on it."""

    CONTRADICTION = "contradiction"  # no world meets `at first` and what is given
    TIME_STOPS = "time stops"  # a reachable situation from which nothing given lets time go on
    UNSETTLED = "unsettled"  # at some instant the rules or relays chase each other for ever
    UNSETTLED_UNKNOWN = "unsettled unknown"  # whether that can happen was not decided


@frozen
class Verdict:
    """`story` of FAILS: how it goes wrong (absent for `possible`, whose failing is a proof); of a proved `possible`:
    the witness. `covered`: no story of at most that many moments goes wrong (known also when not decided).
    `empty` of NO_CASE: the part that cannot occur. `doubtful`: the lines of what is given of which it is not decided
    whether they stop time, where the verdict hangs on that. `seconds`: spent on it; never part of a comparison.
    `engines`: which decided it; none where a look was enough.
    """

    requirement: Requirement
    kind: Kind
    story: Story | None = None
    undecided: Undecided | None = None
    obstacle: Obstacle | None = None
    empty: Expr | None = None
    doubtful: tuple[str, ...] = ()
    covered: int = 0
    seconds: float = 0.0
    engines: frozenset[Engine] = frozenset()
    builtin: bool = False  # the requirement comes with the program (short circuit), nobody wrote it


@frozen
class Trouble:
    """An obstacle found, with its story (None for a contradiction at time 0) and the texts of what is given that meet
    in it.

    `outcomes` of UNSETTLED that is a relay race: for each settled end, the relays that are closed then;
    `chasing`: the names that go on changing.
    """

    obstacle: Obstacle
    story: Story | None
    givens: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()  # the same lines, with their places
    outcomes: tuple[tuple[str, ...], ...] = ()
    chasing: tuple[str, ...] = ()


@frozen
class Check:
    """What checking a whole program gave: obstacles first, then one verdict a requirement, in the order written.

    `grounds`: every proof and story that was found on the way, also of what became no verdict. `bugs`: mistakes in
    this program, each of which left one requirement without a verdict. `unasked`: copper could make a wire live and
    grounded at once, and nobody wanted to know whether it does.
    """

    troubles: tuple[Trouble, ...]
    verdicts: tuple[Verdict, ...]
    interrupted: bool = False
    grounds: Grounds = field(default=Grounds(0), compare=False)
    bugs: tuple[Bug, ...] = ()
    unasked: bool = False
