"""Can what is given bring time to a stop: a moment by which something must happen, and nothing given lets it.

Only what is forcing can. A situation is *stuck* when at some moment no hands meet what is given, neither by leaving the
world as it was nor by moves just before the moment and at it (`ways`). While none is reachable, hands that change the
world only when they must let time go on for ever, because each such change ends a run as long as its time. It is shown
with a few plans of which at each moment one is lawful; they are found one by one, each at a situation in which those
before it are not. A stuck situation is a stop when other times of what falls due do not lead past it either; that is
tried with a few moments. All else is not decided.
Reference for the manner: Clarke, Grumberg, Jha, Lu, Veith, "Counterexample-guided abstraction refinement", CAV 2000.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.engine.certify import Doubts
from logiccheck.engine.cone import Cone, Reach, exact
from logiccheck.engine.courses import STAY, Course
from logiccheck.engine.grid import round_times
from logiccheck.engine.question import Questions
from logiccheck.engine.reach import PROOF_SHARE, Happens, Unknown, search
from logiccheck.engine.recheck import looked_at_again
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.timing import Edge, Fact, Trace
from logiccheck.engine.unroll import Unrolling
from logiccheck.engine.verdict import Undecided
from logiccheck.engine.ways import ways_on
from logiccheck.lang.program import ChangesOnlyWhile
from logiccheck.lang.walk import given_expressions
from logiccheck.model.circuit.aig import FALSE
from logiccheck.model.circuit.system import Constraint, Line

MOST_PLANS = 100
MOST_ESCAPES = 4  # moments that may lead past a stuck situation


@frozen
class Stop:
    """Time stops at the last moment of the trace of `cone`; `lines` are those that meet in it."""

    cone: Cone
    trace: Trace
    lines: tuple[Line, ...]


@frozen
class Doubtful:
    """It is not decided, and `why`, whether time stops by these lines together with all that they touch (`touched`)."""

    lines: tuple[Line, ...]
    touched: frozenset[Line]
    why: Undecided


@dataclass(slots=True)
class Stops:
    """What was found; of all other lines it is proved that they stop no time."""

    stops: list[Stop] = field(default_factory=list)
    doubtful: list[Doubtful] = field(default_factory=list)


def time_stops(questions: Questions, doubts: Doubts, budget: Budget) -> Stops:
    """Asks of each group of lines that share nothing of the world with those of another one."""
    groups = list(_groups(questions))
    found = Stops()
    unproved: set[Line] = set()
    for number, group in enumerate(groups):
        stuck = _Stuck(questions, group)
        answer = stuck.decide(doubts, budget.part(1 / (len(groups) - number)))
        if answer is not None:
            unproved |= stuck.lines
        if isinstance(answer, Stop):
            found.stops.append(answer)
        elif isinstance(answer, Doubtful):
            found.doubtful.append(answer)
    if questions.settles:
        doubts.nothing_else_stops(unproved)
    return found


def _groups(questions: Questions) -> Iterator[list[Constraint]]:
    """What is given, by groups that share nothing of the world, neither directly nor through others; those groups in
    which something is forcing."""
    given = [c for c in questions.moment.system.constraints if c.line is not None]
    left = {c.line: _world(questions, c.line) for c in given if c.line is not None}
    for forcing in given:
        if forcing.forcing and forcing.line in left:
            group = {forcing.line: left.pop(forcing.line)}
            while more := {line for line, world in left.items() if world & frozenset[str]().union(*group.values())}:
                group |= {line: left.pop(line) for line in more}
            yield [c for c in given if c.line in group]


def _world(questions: Questions, line: Line) -> frozenset[str]:
    """What of the world a line depends on, by names."""
    program = questions.moment.program
    match line.kind, line.which:
        case "given", int(number):
            given = program.givens[number]
            own = {given.name} if isinstance(given, ChangesOnlyWhile) else set()
            return questions.names.world(given_expressions(given)) | own
        case "at first", int(number):
            return questions.names.world([program.at_first[number]])
        case _:
            return frozenset([str(line.which)])


class _Stuck:
    """The question whether a stuck moment is reachable: what is given binds every moment before it, not it itself.

    `cone.bad` is true where none of the plans that are known is lawful.
    """

    def __init__(self, questions: Questions, given: list[Constraint]) -> None:
        self.questions, self.given = questions, given
        self.system, self.settles = questions.moment.system, questions.settles
        self.lines = frozenset(c.line for c in given if c.line is not None)
        self.was = {bit >> 1: self.system.before(bit).now for c in self.system.world.coded.values() for bit in c.bits}
        number = min(int(c.line.which) for c in given if c.forcing and c.line is not None)
        broken = self.system.bit(f"given broken {number}")
        self.unbroken = broken.now ^ 1
        self.reach = Reach(self.system)
        self.course = self._course(given)
        broken.next = self.system.aig.either(broken.now, self.course.meets ^ 1)
        self.plans = [STAY]
        self.ways = [self.course.lawful(STAY)]
        self.cone = self._cone()

    def _course(self, given: Sequence[Constraint]) -> Course:
        meets = self.system.aig.all_of(c.lit for c in given)
        cone = self.reach.cone(meets)
        cone.constraints = [c for c in cone.constraints if c.line is None]
        stepping = frozenset(str(c.line.which) for c in given if c.line is not None and c.line.kind == "steps")
        return Course(cone, meets, self.was, stepping)

    def _cone(self) -> Cone:
        """The world as it was in the moment before belongs to it from the start, whatever plans will ask for."""
        was = [self.was[bit] for bits in self.course.cone.world.values() for bit in bits]
        seed = self.system.aig.all_of([self.system.first ^ 1, self.unbroken, *was])
        cone = self.reach.named_cone(seed, (), (), self.lines)
        if not self.settles:
            cone = self.reach.settling(cone, self.questions.moment.changing, whole=True)
        cone.constraints = [c for c in cone.constraints if c.line not in self.lines]
        return self._asked_of(cone)

    def _asked_of(self, cone: Cone) -> Cone:
        """The cone, asked for a moment that is stuck as far as the plans know."""
        aig = self.system.aig
        cone.bad = aig.all_of([self.system.first ^ 1, self.unbroken, aig.any_of(self.ways) ^ 1])
        cone.arrange()
        return cone

    def decide(self, doubts: Doubts, budget: Budget) -> Stop | Doubtful | None:
        """None: proved that time never stops by these lines. Where moments may not settle nothing is proved, nor is
        any verdict."""
        lines = tuple(dict.fromkeys(c.line for c in self.given if c.forcing and c.line is not None))
        why = Undecided.TIME_MAY_STOP
        try:
            proved = self._proved(doubts, budget)
            if proved:
                return None
            found = self._shortest(proved is False and self.settles, budget)
            if isinstance(found, Happens):
                lines = self._blamed(found, budget)
                if not self._escapes(found.trace, budget):
                    return Stop(found.cone, found.trace, lines)
            elif found.why is Undecided.BUDGET:
                why = Undecided.TIME_MAY_STOP_BUDGET
        except OutOfTime:
            why = Undecided.TIME_MAY_STOP_BUDGET
        return Doubtful(lines, self.lines, why)

    def _proved(self, doubts: Doubts, budget: Budget) -> bool | None:
        """Finds plans until at every moment one is lawful; false: at some moment none can be; None: not known."""
        within = budget.part(PROOF_SHARE)
        full = exact(self.cone)
        search = Cegar(full)
        result: TimedProof | None = None
        try:
            while self.cone.bad != FALSE and result is None:
                found = search.run(within)
                if isinstance(found, TimedProof):
                    result = found
                elif found is None or len(self.plans) > MOST_PLANS:
                    return None
                elif not self._found_way(full, found, within):
                    return False
                self._asked_of(full)
        except OutOfTime:
            return None
        doubt = doubts.stuck(self.plans[1:], self.lines) if self.settles else looked_at_again
        doubt(self.cone, (result,) if result is not None else (), budget)
        return True

    def _found_way(self, cone: Cone, trace: Trace, budget: Budget) -> bool:
        """Whether the last moment of the trace, at which no plan so far is lawful, has a way on; it is known now."""
        plans = ways_on(self.course, cone, trace, budget)
        self.plans += plans
        self.ways += [self.course.lawful(plan) for plan in plans]
        self._asked_of(self.cone)
        return bool(plans)

    def _shortest(self, known: bool, budget: Budget) -> Happens | Unknown:
        """The shortest story that ends stuck."""
        while True:
            answer = search(self.cone, budget, known)
            if not isinstance(answer, Happens):
                assert isinstance(answer, Unknown)
                return answer
            if not self._found_way(answer.cone, answer.trace, budget):
                return answer

    def _blamed(self, stuck: Happens, budget: Budget) -> tuple[Line, ...]:
        """Of the lines that meet in the stop, as few as dropping one by one leaves."""
        blamed = list(self.given)
        for line in dict.fromkeys(c.line for c in self.given):
            fewer = [c for c in blamed if c.line != line]
            if not ways_on(self._course(fewer), stuck.cone, stuck.trace, budget):
                blamed = fewer
        return tuple(dict.fromkeys(c.line for c in blamed if c.line is not None))

    def _escapes(self, trace: Trace, budget: Budget) -> bool:
        """Whether a few moments from just before the stuck one on lead past it; true also when its times are no whole
        microseconds."""
        times = round_times(self.cone, trace)
        if any(time.denominator != 1 for time in times):
            return True
        free = replace(self.cone, bad=FALSE, constraints=[*self.cone.constraints, *self.given])
        free.arrange()
        unrolling = Unrolling(free, budget)
        try:
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
        finally:
            unrolling.sat.close()


def _past(times: list[Fraction], count: int) -> list[Edge]:
    """All moments before the stuck one at their times, the next from just before it on, the last one later than it.

    The stuck moment itself tells that the time until just before it can be waited for.
    """
    scale, stuck = count + 2, len(times) - 1
    edges = [Edge(count - 1, 0, -int(times[-1]) * scale - 1, Fact.ASKED)]
    edges.append(Edge(stuck, 0, -int(times[-1]) * scale + MOST_ESCAPES, Fact.ASKED))
    for k, time in enumerate(times[:-1]):
        at = int(time) * scale
        edges += [Edge(0, k, at, Fact.ASKED), Edge(k, 0, -at, Fact.ASKED)]
    return edges
