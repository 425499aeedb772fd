"""Can what is given bring time to a stop: a moment by which something must happen, and nothing given lets it.

Only what is forcing can. A situation is *stuck* when at some moment no world meets what is given, neither the one from
before nor one in which only the demanded things are different; while none is reachable, hands that change the world
only when they must let time go on for ever, because each change ends a run as long as its time. A stuck situation is a
stop when no moments before it lead past it either; that is tried with a few. All else is not decided.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.cone import Cone, Reach
from logiccheck.engine.question import Questions
from logiccheck.engine.reach import Happens, Impossible, reach
from logiccheck.engine.shortest import Unrolling
from logiccheck.engine.timing import Edge, Fact, Trace, round_times
from logiccheck.lang.program import AfterLasting, Excluded, Expr, Given, LastsAtMost, Program
from logiccheck.lang.walk import references
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit, Node
from logiccheck.model.circuit.system import Constraint, Line, System

MOST_WORLDS = 200  # combinations of demanded things that are tried at a moment
MOST_ESCAPES = 4  # moments that may lead past a stuck situation


@dataclass(frozen=True, slots=True)
class Stop:
    """Time stops at the last moment of the trace of `cone`; `lines` are those that meet in it."""

    cone: Cone
    trace: Trace
    lines: tuple[Line, ...]


def time_stops(questions: Questions, budget: Budget) -> Stop | frozenset[Line]:
    """A stop, or the lines of which it is not decided whether they can stop time (none: they cannot)."""
    system = questions.moment.system
    forcing = [c for c in system.constraints if c.forcing]
    if not forcing:
        return frozenset()
    touched = questions.cone(system.aig.all_of(c.lit for c in forcing)).constraints
    lines = tuple(dict.fromkeys(c.line for c in touched if c.line is not None))
    demanded = _demanded(questions.moment.program)
    if _worlds(system, demanded) > MOST_WORLDS:
        return frozenset(lines)
    cone = _stuck_cone(system, touched, demanded)
    answer = reach(cone, budget)
    if isinstance(answer, Impossible):
        return frozenset()
    if not isinstance(answer, Happens):
        return frozenset(lines)
    try:
        escapes = _escapes(cone, touched, answer.trace, budget)
    except OutOfTime:
        escapes = True
    return frozenset(lines) if escapes else Stop(cone, answer.trace, lines)


def _demanded(program: Program) -> list[str]:
    """The variables of the world that something forcing speaks of directly."""
    names: dict[str, None] = {}
    for given in program.givens:
        part = _forced_part(given)
        for leaf in references(part) if part is not None else ():
            names[leaf.name] = None
    known = {s.name for s in program.switches} | {n.name for n in program.numbers}
    return [name for name in names if name in known]


def _forced_part(given: Given) -> Expr | None:
    match given:
        case AfterLasting():
            return given.c
        case LastsAtMost() | Excluded():
            return given.p
        case _:
            return None


def _worlds(system: System, names: list[str]) -> int:
    count = 1
    for name in names:
        count *= len(system.world.coded[name].legal)
    return count


def _stuck_cone(system: System, touched: list[Constraint], demanded: list[str]) -> Cone:
    """The question whether a stuck moment is reachable: what is given binds every moment before it, not it itself."""
    aig = system.aig
    meets = aig.all_of(c.lit for c in touched if c.line is not None)
    was = {bit >> 1: _was(system, bit) for coded in system.world.coded.values() for bit in coded.bits}
    coded = [system.world.coded[name] for name in demanded]
    possible = FALSE
    for indices in product(*(c.legal for c in coded)):
        world = dict(was)
        for c, index in zip(coded, indices, strict=True):
            world |= {bit >> 1: TRUE if index >> i & 1 else FALSE for i, bit in enumerate(c.bits)}
        possible = aig.either(possible, substitute(aig, meets, world))
    broken = system.bit("given broken")
    broken.next = aig.either(broken.now, meets ^ 1)
    cone = Reach(system).cone(aig.all_of([system.first ^ 1, broken.now ^ 1, possible ^ 1]))
    cone.constraints = [c for c in cone.constraints if c.line is None]
    return cone


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


def substitute(aig: Aig, lit: Lit, values: dict[Node, Lit]) -> Lit:
    """The literal with inputs replaced by other literals."""
    made: dict[Node, Lit] = {0: FALSE, **values}
    for node in aig.cone([lit]):
        if node in made:
            continue
        pair = aig.operands[node]
        if pair is None:
            made[node] = 2 * node
        else:
            a, b = pair
            made[node] = aig.both(made[a >> 1] ^ (a & 1), made[b >> 1] ^ (b & 1))
    return made[lit >> 1] ^ (lit & 1)
