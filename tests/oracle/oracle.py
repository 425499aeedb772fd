"""The answer to each requirement of a small program, by exploring all of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from logiccheck.lang.program import Possible, Program, Requirement
from tests.oracle.explorer import Explorer, Search
from tests.oracle.kernel import Kernel
from tests.oracle.monitors import monitor_of
from tests.oracle.obstacles import never_settles, time_stops
from tests.oracle.slices import Slicer, named

LIMIT = 20_000


class Kind(Enum):
    PROVED = "proved"
    FAILS = "fails"
    NO_CASE = "no case"
    BLOCKED = "blocked"


@dataclass(frozen=True)
class Answer:
    """`moments` is the length of the shortest story of a failure, or of the shortest witness of something possible."""

    kind: Kind
    moments: int | None = None
    reason: str = ""
    states: int = 0


def decide(program: Program, requirement: Requirement, limit: int = LIMIT) -> Answer:
    """What is so of one requirement. Raises `TooBig` when the part that matters has more than `limit` states."""
    names = {node for expr in monitor_of(requirement.form).exprs.values() for node in named(expr)}
    part = Slicer(program).slice(names, (requirement,))
    kernel = Kernel(part, requirement.form)
    search = Search(Explorer(kernel, limit))
    sought = isinstance(requirement.form, Possible)
    search.run(patient=sought)
    states = len(search.levels)
    if not search.begun:
        return Answer(Kind.BLOCKED, reason="contradiction", states=states)
    if time_stops(part, limit):
        return Answer(Kind.BLOCKED, reason="time stops", states=states)
    if search.best and not sought:
        return Answer(Kind.FAILS, search.best, states=states)  # its own story settles: that stays
    if never_settles(program, limit):
        return Answer(Kind.BLOCKED, reason="never settles", states=states)
    if sought and not search.best:
        return Answer(Kind.FAILS, states=states)
    missing = [case for case in kernel.cases() if case not in search.seen]
    kind = Kind.NO_CASE if missing else Kind.PROVED
    return Answer(kind, search.best, ", ".join(missing), states)


def decide_all(program: Program, limit: int = LIMIT) -> dict[str, Answer]:
    """The answers to all requirements, by name."""
    return {requirement.name: decide(program, requirement, limit) for requirement in program.requirements}
