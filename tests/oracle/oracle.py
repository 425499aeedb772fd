"""The answer to each requirement of a small program, by exploring all of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from logiccheck.lang.program import Possible, Program, Requirement
from tests.oracle.explorer import Explorer, Search
from tests.oracle.making import Making
from tests.oracle.monitors import monitor_of
from tests.oracle.obstacles import circles, never_settles, time_stops
from tests.oracle.slices import Node, named

LIMIT = 20_000


class Kind(Enum):
    PROVED = "proved"
    FAILS = "fails"
    NO_CASE = "no case"
    BLOCKED = "blocked"


@dataclass(frozen=True)
class Answer:
    """`moments` is the length of the shortest story of a failure, or of the shortest witness of something possible.

    Where the program can fail to settle, a story has at least so many (`exact` is false): the whole vehicle has to
    settle in it, which may take moments of parts that the requirement does not look at.
    """

    kind: Kind
    moments: int | None = None
    reason: str = ""
    states: int = 0
    exact: bool = True


def nodes_of(requirement: Requirement) -> set[Node]:
    """What a requirement names."""
    return {node for expr in monitor_of(requirement.form).exprs.values() for node in named(expr)}


def decide(program: Program, requirement: Requirement, limit: int = LIMIT, making: Making | None = None) -> Answer:
    """What is so of one requirement. Raises `TooBig` when the part that matters has more than `limit` states."""
    making = making or Making()
    part = making.slice(program, nodes_of(requirement), (requirement,))
    kernel = making.kernel(part, requirement.form)
    search = Search(Explorer(kernel, limit))
    sought = isinstance(requirement.form, Possible)
    search.run(patient=sought)
    states = len(search.levels)
    if not search.begun:
        return Answer(Kind.BLOCKED, reason="contradiction", states=states)
    if never_settles(program, limit, making):
        return decide_beside_chatter(program, requirement, part, search.best, limit, making)
    if time_stops(part, limit, making):
        return Answer(Kind.BLOCKED, reason="time stops", states=states)
    if search.best and not sought:
        return Answer(Kind.FAILS, search.best, states=states)
    if sought and not search.best:
        return Answer(Kind.FAILS, states=states)
    missing = [case for case in kernel.cases() if case not in search.seen]
    kind = Kind.NO_CASE if missing else Kind.PROVED
    return Answer(kind, search.best, ", ".join(missing), states)


def decide_beside_chatter(
    program: Program, requirement: Requirement, part: Program, shortest: int | None, limit: int, making: Making
) -> Answer:
    """What is so of a requirement of a program that can fail to settle: a failure stays if its own story settles.

    The whole vehicle has to settle at each moment of it, also where the requirement does not look: what can chatter is
    therefore looked at together with what matters. Time stops for the requirement if it does so in its own `part`, in a
    situation that is reached with all at rest.
    """
    nodes = nodes_of(requirement).union(*circles(program, making))
    both = making.slice(program, nodes, (requirement,))
    if time_stops(part, limit, making) and time_stops(both, limit, making):
        return Answer(Kind.BLOCKED, reason="time stops and it never settles")
    if shortest and not isinstance(requirement.form, Possible):
        search = Search(Explorer(making.kernel(both, requirement.form), limit))
        search.run(patient=False)
        if search.best:
            return Answer(Kind.FAILS, shortest, states=len(search.levels), exact=False)
    return Answer(Kind.BLOCKED, reason="it never settles")
