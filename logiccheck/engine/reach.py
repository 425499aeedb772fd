"""Can it happen? One question, decided on its cone: a proof, a shortest trace, or why it is not decided."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.pdr import Pdr, Proof
from logiccheck.engine.recheck import proof_holds
from logiccheck.engine.shortest import Search
from logiccheck.engine.timing import Trace, schedule
from logiccheck.engine.verdict import Undecided


@dataclass(frozen=True, slots=True)
class Impossible:
    """It cannot happen; the clauses of the proof were checked again by another solver."""

    proof: Proof


@dataclass(frozen=True, slots=True)
class Happens:
    """It happens at the last moment of this trace of `cone`, which has the fewest moments there can be."""

    trace: Trace


@dataclass(frozen=True, slots=True)
class Unknown:
    """`covered`: it does not happen within that many moments."""

    why: Undecided
    covered: int


Answer: TypeAlias = Impossible | Happens | Unknown

SEARCH_SHARE = 0.6  # of the budget, for a story once the proof without time has failed
MOST_MOMENTS = 24  # a search with no known story stops here


class ProofRefused(Exception):
    """Our own proof did not pass its re-check: a mistake in this program, never a verdict."""


def reach(cone: Cone, budget: Budget) -> Answer:
    """Decides whether `cone.bad` can become true in a story that meets what is given."""
    if cone.bad == 0:
        return Impossible(Proof(()))
    full = exact(cone)
    pdr = Pdr(full, budget)
    try:
        result = pdr.run()
    except OutOfTime:
        return Unknown(Undecided.BUDGET, max(0, len(pdr.frames) - 2) if not cone.watches else 0)
    finally:
        pdr.close()
    if isinstance(result, Proof):
        if not proof_holds(full, result):
            raise ProofRefused
        return Impossible(result)
    known = len(result) if schedule(full, result)[0] is not None else None
    return _search(cone, budget, known)


def _search(cone: Cone, budget: Budget, known: int | None) -> Answer:
    """The shortest story; there is one of at most `known` moments, or perhaps none at all."""
    search = Search(cone, budget if known is not None else budget.part(SEARCH_SHARE))
    try:
        trace = search.run(known if known is not None else MOST_MOMENTS)
    except OutOfTime:
        why = Undecided.BUDGET if known is not None else Undecided.TIMER_ARITHMETIC
        return Unknown(why, search.covered)
    finally:
        search.close()
    if trace is not None:
        return Happens(trace)
    if known is not None:
        raise AssertionError("a story that is known was not found")
    return Unknown(Undecided.TIMER_ARITHMETIC, search.covered)
