"""Can it happen? One question, decided on its cone: a proof, a shortest trace, or why it is not decided."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.certify import Doubt, ProofRefused
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.recheck import proof_holds
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.shortest import Search
from logiccheck.engine.timing import Trace
from logiccheck.engine.verdict import Undecided
from logiccheck.model.circuit.aig import FALSE


@dataclass(frozen=True, slots=True)
class Impossible:
    """It cannot happen; the proof (absent where the question is constantly false) was checked again by another solver,
    and has passed the audit."""

    proof: TimedProof | None


@dataclass(frozen=True, slots=True)
class Happens:
    """It happens at the last moment of this trace of `cone`, which has the fewest moments there can be."""

    cone: Cone
    trace: Trace


@dataclass(frozen=True, slots=True)
class Unknown:
    """`covered`: it does not happen within that many moments."""

    why: Undecided
    covered: int


Answer: TypeAlias = Impossible | Happens | Unknown

PROOF_SHARE = 0.6  # of the budget, for the proof; the rest looks for a story when there is no proof by then
MOST_MOMENTS = 24  # a search with no known story stops here


def reach(
    cone: Cone, budget: Budget, doubt: Doubt, told: Callable[[], Cone] | None = None, settles: bool = True
) -> Answer:
    """Decides whether `cone.bad` can become true in a story that meets what is given; the story is one of the cone that
    `told` gives (or of the same). A proof goes through `doubt`, which may raise ProofRefused."""
    result: TimedProof | Trace | None = None
    try:
        if cone.bad == FALSE:
            doubt(cone, None, budget)
            return Impossible(None)
        full = exact(cone)
        result = Cegar(full).run(budget.part(PROOF_SHARE))
        if isinstance(result, TimedProof):
            if not proof_holds(full, result, budget):
                raise ProofRefused("the search does not stand by it")
            doubt(cone, result, budget)
            return Impossible(result)
    except OutOfTime:
        result = None
    return search(told() if told is not None else cone, budget, known=result is not None and settles)


def search(cone: Cone, budget: Budget, known: bool) -> Answer:
    """The shortest story; `known`: there is one."""
    search = Search(cone, budget)
    try:
        trace = search.run(None if known else MOST_MOMENTS)
    except OutOfTime:
        return Unknown(Undecided.BUDGET, search.covered)
    finally:
        search.close()
    if trace is not None:
        return Happens(cone, trace)
    return Unknown(Undecided.TIMER_ARITHMETIC, search.covered)
