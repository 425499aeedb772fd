"""Can it happen? One question, decided on its cone: a proof, a shortest trace, or why it is not decided."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.engine.certify import Doubt
from logiccheck.engine.cone import Cone
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.portfolio import Never, Sometimes, prove
from logiccheck.engine.shortest import Search
from logiccheck.engine.timing import Trace
from logiccheck.engine.verdict import Undecided
from logiccheck.model.circuit.aig import FALSE


@frozen
class Impossible:
    """It cannot happen; the proof, found by `engines` (none where the question is constantly false), has passed the
    audit."""

    engines: frozenset[Engine]


@frozen
class Happens:
    """It happens at the last moment of this trace of `cone`, which has the fewest moments there can be; `engines` knew
    before that it does. `settled`: of all that are as short it is the one to tell."""

    cone: Cone
    trace: Trace
    engines: frozenset[Engine] = frozenset()
    settled: bool = True


@frozen
class Unknown:
    """`covered`: it does not happen within that many moments."""

    why: Undecided
    covered: int


Answer: TypeAlias = Impossible | Happens | Unknown

PROOF_SHARE = 0.6  # of the budget, for the proof; the rest looks for a story when there is no proof by then
MOST_MOMENTS = 24  # a search with no known story stops here


def reach(
    cone: Cone,
    budget: Budget,
    doubt: Doubt,
    told: Callable[[], Cone] | None = None,
    settles: bool = True,
    engines: Collection[Engine] = BOTH,
) -> Answer:
    """Decides whether `cone.bad` can become true in a story that meets what is given; the story is one of the cone that
    `told` gives (or of the same). A proof goes through `doubt`, which may raise ProofRefused."""
    result: Never | Sometimes | None = None
    try:
        if cone.bad == FALSE:
            doubt(cone, (), budget)
            return Impossible(frozenset())
        result = prove(cone, budget.part(PROOF_SHARE), engines)
        if isinstance(result, Never):
            doubt(cone, result.proofs, budget)
            return Impossible(result.engines)
    except OutOfTime:
        result = None
    known = isinstance(result, Sometimes) and settles
    fewest = result.trace if isinstance(result, Sometimes) and result.shortest and settles else None
    answer = search(told() if told is not None else cone, budget, known, fewest)
    if isinstance(result, Sometimes) and isinstance(answer, Happens):
        return replace(answer, engines=frozenset({result.engine}))
    return answer


def search(cone: Cone, budget: Budget, known: bool, fewest: Trace | None = None) -> Answer:
    """The shortest story; `known`: there is one. `fewest`: a trace of a part of the
    cone with as few moments as there can be where no watch looks on."""
    search = Search(cone, budget)
    try:
        if fewest is not None and not cone.watches:
            search.begin_with(fewest)
        trace = search.run(None if known else MOST_MOMENTS)
    except OutOfTime:
        return Unknown(Undecided.BUDGET, search.covered)
    finally:
        search.close()
    if trace is not None:
        return Happens(cone, trace, settled=search.settled)
    return Unknown(Undecided.TIMER_ARITHMETIC, search.covered)
