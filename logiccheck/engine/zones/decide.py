"""Zones over as few clocks as decide the question: a clock keeps time only once a trace was impossible because of it.

A clock that does not keep time may fall due whenever it runs, so that more is reachable, never less: what is not
reached then is not reached in truth; a trace counts only when it is possible in time (see `timing`).
"""

from __future__ import annotations

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.timing import Trace, schedule
from logiccheck.engine.zones.moves import Moves
from logiccheck.engine.zones.search import Found, Search
from logiccheck.engine.zones.sets import bounded


@frozen
class Covered:
    """The bad thing is not reached; `found` holds all that is."""

    moves: Moves
    found: Found


def decide(cone: Cone, budget: Budget) -> Covered | Trace:
    """All that an exact cone can reach without its bad thing, or a trace to it that is possible in time, with the
    fewest moments. May raise OutOfTime, TooLarge or TooManyPlaces."""
    with bounded():
        return _decide(cone, Moves(cone, budget))


def _decide(cone: Cone, moves: Moves) -> Covered | Trace:
    timed: tuple[int, ...] = ()
    while True:
        search = Search(moves, timed)
        trace = search.run()
        if trace is None:
            return Covered(moves, search.found)
        times, cycle = schedule(cone, trace)
        if times is not None:
            return trace
        assert cycle is not None
        blamed = {edge.key for edge in cycle if edge.fact is not None}
        more = {k for k, clock in enumerate(cone.clocks) if clock.key in blamed}
        assert more - set(timed), "a trace of zones is possible in time as far as they keep it"
        timed = tuple(sorted({*timed, *more}))
