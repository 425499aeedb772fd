"""Can what is given bring time to a stop: a moment by which something must happen, and nothing given lets it.

Only what is forcing can. A situation is *stuck* when at some moment no world meets what is given, neither the one from
before nor one in which only the demanded things are different (brought there step by step just before, where they must
be); while none is reachable, hands that change the world only when they must let time go on for ever, because each such
change ends a run as long as its time. A stuck situation is a
stop when no moments before it lead past it either; that is tried with a few. All else is not decided.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice, product

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.certify import Doubts, undoubted
from logiccheck.engine.cone import Cone, Reach
from logiccheck.engine.courses import Course, Plan
from logiccheck.engine.grid import round_times
from logiccheck.engine.question import Questions
from logiccheck.engine.reach import Happens, Impossible, reach
from logiccheck.engine.timing import Edge, Fact, Trace, holds_last
from logiccheck.engine.unroll import Unrolling
from logiccheck.lang.program import AfterLasting, Excluded, Expr, Given, LastsAtMost, Program
from logiccheck.lang.walk import Memory, references, subexpressions
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.system import Constraint, Line, System

MOST_PLANS = 200  # combinations of demanded things that are tried at a moment
MOST_ESCAPES = 4  # moments that may lead past a stuck situation


@dataclass(frozen=True, slots=True)
class Stop:
    """Time stops at the last moment of the trace of `cone`; `lines` are those that meet in it."""

    cone: Cone
    trace: Trace
    lines: tuple[Line, ...]


def time_stops(questions: Questions, doubts: Doubts, budget: Budget) -> Stop | frozenset[Line]:
    """A stop, or the lines of which it is not decided whether they can stop time (none: they cannot)."""
    system = questions.moment.system
    forcing = [c for c in system.constraints if c.forcing]
    if not forcing:
        return frozenset()
    touched = questions.reach.cone(system.aig.all_of(c.lit for c in forcing)).constraints
    lines = frozenset(c.line for c in (*touched, *forcing) if c.line is not None)
    demanded = _demanded(questions.moment.program)
    plans = _plans(system, demanded, lines)
    if len(plans) > MOST_PLANS:
        return lines
    stuck = _Stuck(system, touched, plans, {} if questions.settles else questions.moment.changing)
    doubt = doubts.stuck(demanded, lines) if questions.settles else undoubted  # else nothing will be proved
    answer = reach(stuck.cone, budget, doubt)
    if isinstance(answer, Impossible):
        return frozenset()
    if not isinstance(answer, Happens):
        return lines
    try:
        escapes = _escapes(stuck.cone, touched, answer.trace, budget)
    except OutOfTime:
        escapes = True
    return lines if escapes else Stop(stuck.cone, answer.trace, stuck.blamed(answer.trace))


def _demanded(program: Program) -> list[str]:
    """The variables of the world that something forcing speaks of directly, and those that are excluded beside them."""
    known = {s.name for s in program.switches} | {n.name for n in program.numbers}

    def names(part: Expr | None) -> set[str]:
        return {leaf.name for leaf in references(part)} & known if part is not None else set()

    demanded: set[str] = set()
    for given in program.givens:
        demanded |= names(_forced_part(given))
    while True:
        beside = [names(given.p) for given in program.givens if isinstance(given, Excluded)]
        more = {name for group in beside if group & demanded for name in group} - demanded
        if not more:
            return sorted(demanded)
        demanded |= more


def _forced_part(given: Given) -> Expr | None:
    match given:
        case AfterLasting():
            return given.c
        case LastsAtMost():
            return given.p
        case Excluded():
            return given.p if any(isinstance(e, Memory) for e in subexpressions(given.p)) else None
        case _:
            return None


def _plans(system: System, demanded: list[str], lines: frozenset[Line]) -> list[Plan]:
    """One plan for each combination of values of the demanded things; at most one more than are tried."""
    stepping = {line.which for line in lines if line.kind == "steps"}
    coded = [system.world.coded[name] for name in demanded]
    plans = []
    for indices in islice(product(*(c.legal for c in coded)), MOST_PLANS + 1):
        chosen = list(zip(demanded, coded, indices, strict=True))
        steps = tuple((c, i) for name, c, i in chosen if name in stepping)
        plans.append(Plan(steps, tuple((c, i) for name, c, i in chosen if name not in stepping)))
    return plans


class _Stuck:
    """The question whether a stuck moment is reachable: what is given binds every moment before it, not it itself.

    `changing`: of the stored bits, whether they go on changing in a moment, where that can happen.
    """

    def __init__(
        self, system: System, touched: list[Constraint], plans: list[Plan], changing: Mapping[str, Lit]
    ) -> None:
        self.system, self.plans = system, plans
        self.given = [c for c in touched if c.line is not None]
        self.was = {bit >> 1: _was(system, bit) for c in system.world.coded.values() for bit in c.bits}
        meets = system.aig.all_of(c.lit for c in self.given)
        broken = system.bit("given broken")
        broken.next = system.aig.either(broken.now, meets ^ 1)
        stuck = system.aig.all_of([system.first ^ 1, broken.now ^ 1, self._no_way_on(self.given)])
        self.cone = self._cone(stuck)
        if changing:
            self.cone = Reach(system).settling(self.cone, changing, whole=True)
            self.cone.constraints = [c for c in self.cone.constraints if c.line is None]

    def _cone(self, bad: Lit) -> Cone:
        cone = Reach(self.system).cone(bad)
        cone.constraints = [c for c in cone.constraints if c.line is None]
        return cone

    def _no_way_on(self, given: list[Constraint]) -> Lit:
        """Neither the world from before nor any plan meets these."""
        aig = self.system.aig
        meets = aig.all_of(c.lit for c in given)
        course = Course(self._cone(meets), meets, self.was)
        late = [replace(plan, late=True) for plan in self.plans if plan.stepping]
        ways = [course.lawful(plan) for plan in (Plan((), ()), *self.plans, *late)]
        return aig.any_of(ways) ^ 1

    def blamed(self, trace: Trace) -> tuple[Line, ...]:
        """Of the lines that meet in the stop, as few as dropping one by one leaves."""
        blamed = list(self.given)
        for line in dict.fromkeys(c.line for c in self.given):
            fewer = [c for c in blamed if c.line != line]
            if holds_last(self.cone, trace, self._no_way_on(fewer)):
                blamed = fewer
        return tuple(dict.fromkeys(c.line for c in blamed if c.line is not None))


def _escapes(cone: Cone, touched: list[Constraint], trace: Trace, budget: Budget) -> bool:
    """Whether a few moments before the stuck one lead past it; true also when its times are no whole microseconds."""
    times = round_times(cone, trace)
    if any(time.denominator != 1 for time in times):
        return True
    free = replace(cone, bad=FALSE, constraints=[*cone.constraints, *touched])
    free.arrange()
    unrolling = Unrolling(free, budget)
    fixed: list[int] = []
    for inputs in trace[:-1]:
        unrolling.extend()
        moment = unrolling.moments[-1]
        fixed += [moment.lit(2 * node) if value else -moment.lit(2 * node) for node, value in inputs.items()]
    for _ in range(MOST_ESCAPES):
        unrolling.extend()
        if unrolling.possible(fixed, _past(times, len(unrolling.moments))) is not None:
            return True
    return False


def _past(times: list[Fraction], count: int) -> list[Edge]:
    """All moments before the stuck one at their times, the last one later than it."""
    scale = count + 2
    edges = [Edge(count - 1, 0, -int(times[-1]) * scale - 1, Fact.ASKED)]
    for k, time in enumerate(times[:-1]):
        at = int(time) * scale
        edges += [Edge(0, k, at, Fact.ASKED), Edge(k, 0, -at, Fact.ASKED)]
    return edges


def _was(system: System, bit: Lit) -> Lit:
    """The value that a bit of the world had in the moment before."""
    name = f"{system.aig.names[bit >> 1]} was"
    known = system.bits.get(name)
    return known.now if known is not None else system.memory(name, bit)
