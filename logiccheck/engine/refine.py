"""Refinement: an abstract trace that is impossible in time teaches new facts about deadlines, until it is decided.

Where a cycle of time constraints crosses from the past of some moment into its future, what the past proves is a bound
on a difference of two deadlines, or on one deadline and the moment itself: the interpolant. Tracking these bounds rules
the trace out. By interpolation one of the three kinds of lesson always makes progress; the limits only guard against
size. References: K. McMillan, "Interpolation and SAT-based model checking", CAV 2003; see also `deadlines`.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.deadlines import Predicate, Refinement, Tracked
from logiccheck.engine.pdr import Cube, Pdr, Proof
from logiccheck.engine.steps import lemmas
from logiccheck.engine.timing import Edge, Fact, Trace, schedule

MOST_PREDICATES = 200
MOST_ROUNDS = 400


@frozen
class TimedProof:
    """Clauses over the bits of an exact cone and over the predicates of `refined` that hold of all that is
    reachable."""

    refined: Cone
    tracked: Tracked
    proof: Proof


@dataclass(slots=True)
class Cegar:
    """Decides an exact cone; `run` may raise OutOfTime and be called again: frames, predicates and lemmas are kept.

    `frames` block what so many moments do not reach in any abstraction, hence not in truth: their number is a lower
    bound on the length of a trace.
    """

    cone: Cone
    tracked: Tracked = field(init=False)
    frames: list[list[Cube]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.tracked = Tracked(self.cone)

    def run(self, budget: Budget) -> TimedProof | Trace | None:
        """A proof, a trace that is possible in time, or None when a limit was reached."""
        for _ in range(MOST_ROUNDS):
            refined = Refinement(self.tracked)
            pdr = Pdr(refined.cone, budget, self.frames)
            try:
                result = pdr.run()
            finally:
                self.frames = pdr.frames
                pdr.close()
            if isinstance(result, Proof):
                return TimedProof(refined.cone, self.tracked, result)
            times, cycle = schedule(self.cone, result)
            if times is not None:
                return result
            assert cycle is not None
            self._learn(refined, result, cycle)
            if len(self.tracked.predicates) > MOST_PREDICATES:
                return None
        return None

    def _learn(self, refined: Refinement, trace: Trace, cycle: list[Edge]) -> None:
        """The first kind of lesson that says something new: differences, impossible steps, rests."""
        differences, rests = interpolants(self.tracked, len(trace), cycle)
        if differences:
            self.tracked.predicates |= differences
            return
        found = lemmas(self.tracked, refined, trace)
        if found:
            self.tracked.lemmas += found
            return
        if not rests:
            raise AssertionError("refinement without progress")
        self.tracked.predicates |= rests


def interpolants(tracked: Tracked, moments: int, cycle: list[Edge]) -> tuple[set[Predicate], set[Predicate]]:
    """New predicates from every cut of the cycle between two moments: about two deadlines, and about one and the
    moment.

    A stretch of the cycle in the past of the cut is entered where a timer falls due not before its least time (an edge
    back in time), or where a moment follows another, and left at an edge forward in time.
    """
    number = {clock.key: i for i, clock in enumerate(tracked.clocks)}
    scale = moments + 2
    differences: set[Predicate] = set()
    rests: set[Predicate] = set()
    keys = sorted({number[e.key] for e in cycle if e.fact is not None})
    differences |= {(i, j, 0) for i in keys for j in keys if i < j}
    for cut in range(moments - 1):
        for entry, edge in enumerate(cycle):
            if not edge.tail > cut >= edge.head:
                continue
            total, at = 0, (entry + 1) % len(cycle)
            while cycle[at].head <= cut:
                total += cycle[at].bound
                at = (at + 1) % len(cycle)
            i = number[cycle[at].key]
            bound = -(-total // scale) + tracked.clocks[i].hi
            if edge.fact is Fact.DUE:
                j = number[edge.key]
                bound -= tracked.clocks[j].lo
                if i != j:
                    differences.add((i, j, bound) if i < j else (j, i, -bound))
            else:
                rests.add((i, tracked.now, bound))
    return _new(tracked, differences), _new(tracked, rests)


def _new(tracked: Tracked, predicates: set[Predicate]) -> set[Predicate]:
    return {p for p in predicates if tracked.undecided_by_windows(p)} - tracked.predicates
