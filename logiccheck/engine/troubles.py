"""What blocks verdicts, searched for before any of them: contradictions, moments that never settle, time that stops."""

from __future__ import annotations

from collections.abc import Iterable

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.question import Questions
from logiccheck.engine.reach import Happens, Impossible, reach
from logiccheck.engine.replay import played
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.settle import settle, with_repeats
from logiccheck.engine.stops import Stop, time_stops
from logiccheck.engine.tell import tell
from logiccheck.engine.verdict import Obstacle, Trouble
from logiccheck.lang.program import Program
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.circuit.system import Line
from logiccheck.model.interpreter import Machine
from logiccheck.model.race import chasing, outcomes
from logiccheck.model.story import Story
from logiccheck.model.timeline import Timeline

REACHABLE_REPEATS = (3, 8)  # tried in turn where not every memory settles


def settled_moment(program: Program, forms: Forms, budget: Budget) -> tuple[Moment, Trouble | None]:
    """A moment with enough repeats, free of observers; or one with many, and how it can fail to settle."""
    depth = settle(program, forms)
    if depth.always:
        return depth.moment, None
    for repeats in REACHABLE_REPEATS:
        questions = Questions(with_repeats(program, forms, repeats), settles=True, only=frozenset())
        cone = questions.cone(questions.moment.unsettled)
        answer = reach(cone, budget)
        if isinstance(answer, Impossible):
            return with_repeats(program, forms, repeats), None
        if isinstance(answer, Happens):
            story = tell(cone, answer.trace, False, involved(cone))
            timeline = played(program, story)
            if not timeline.settles:
                return with_repeats(program, forms, repeats), _unsettled(program, story, timeline)
    return with_repeats(program, forms, REACHABLE_REPEATS[-1]), Trouble(Obstacle.UNSETTLED_UNKNOWN, None)


def _unsettled(program: Program, story: Story, timeline: Timeline) -> Trouble:
    moment = timeline.played[-1].moment
    ends = sorted(tuple(sorted(closed)) for closed in outcomes(Machine(program), moment))
    return Trouble(Obstacle.UNSETTLED, story, outcomes=tuple(ends), chasing=tuple(sorted(chasing(moment))))


def involved(cone: Cone) -> frozenset[str]:
    """The names of the world that a cone involves; what copper and box add is found when the story is shown."""
    return frozenset(cone.world)


def contradiction(questions: Questions) -> Trouble | None:
    """No world at time 0 meets what is given: the lines that cannot hold together, as few as dropping one by one
    gives."""
    system = questions.moment.system
    aig = system.aig
    lits = [c.lit for c in system.constraints]
    sat = Sat("cadical153")
    circuit = Circuit(sat, Template(aig, aig.cone(lits)))
    for bit in system.bits.values():
        if bit.now >> 1 in circuit.number:
            sat.add([-circuit.lit(bit.now)])
    for constraint in system.constraints:
        if constraint.line is None:
            sat.add([circuit.lit(constraint.lit)])
    named = [c for c in system.constraints if c.line is not None]
    contradicts = not sat.solve([circuit.lit(c.lit) for c in named])
    if contradicts:
        for c in list(named):
            fewer = [d for d in named if d is not c]
            if not sat.solve([circuit.lit(d.lit) for d in fewer]):
                named = fewer
    sat.close()
    return (
        _trouble(Obstacle.CONTRADICTION, None, [c.line for c in named if c.line is not None]) if contradicts else None
    )


def _trouble(obstacle: Obstacle, story: Story | None, lines: Iterable[Line]) -> Trouble:
    lines = tuple(dict.fromkeys(lines))
    return Trouble(obstacle, story, tuple(line.text for line in lines), lines)


def stopped_time(questions: Questions, budget: Budget) -> tuple[Trouble | None, frozenset[Line]]:
    """A situation from which time cannot go on; and the lines of which it is not decided whether they stop time."""
    found = time_stops(questions, budget)
    if not isinstance(found, Stop):
        return None, found
    story = tell(found.cone, found.trace, False, involved(found.cone))
    return _trouble(Obstacle.TIME_STOPS, story, found.lines), frozenset()
