"""What blocks verdicts, searched for before any of them: contradictions, moments that never settle, time that stops."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.apart import happens_apart
from logiccheck.engine.asides import Teller
from logiccheck.engine.certify import Doubts
from logiccheck.engine.cone import Cone
from logiccheck.engine.engines import Engine
from logiccheck.engine.question import Questions
from logiccheck.engine.reach import Happens, Impossible, reach
from logiccheck.engine.recheck import looked_at_again
from logiccheck.engine.replay import StoryRefused, played
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.settle import settle, with_repeats
from logiccheck.engine.stops import Doubtful, Stop, time_stops
from logiccheck.engine.tell import tell
from logiccheck.engine.verdict import Obstacle, Trouble
from logiccheck.lang.program import Program
from logiccheck.model.circuit.aig import Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.circuit.system import Line
from logiccheck.model.interpreter import Machine
from logiccheck.model.race import chasing, outcomes
from logiccheck.model.story import Answer, Aside, Story
from logiccheck.model.timeline import Timeline

ASIDE_SHARE = 0.2  # of the time that is left, at most, for what is said beside a story
REACHABLE_REPEATS = (3, 8)  # tried in turn where not every memory settles


def settled_moment(program: Program, forms: Forms, budget: Budget) -> tuple[Moment, Trouble | None, Doubts]:
    """A moment with enough repeats, free of observers; or one with many, and how it can fail to settle. With it the
    audit of all proofs about such moments.

    What lines that contradict each other touch is passed over here; nothing that rests on them will be a verdict. What
    they do not touch may still fail to settle; that it does not is then not audited, but looked at again.
    """
    depth = settle(program, forms)
    if depth.always:
        doubts = Doubts(program, depth.moment)
        try:
            doubts.settling_always(depth.moment, budget)
        except OutOfTime:
            return depth.moment, *_not_settled(Trouble(Obstacle.UNSETTLED_UNKNOWN, None), doubts)
        return depth.moment, None, doubts
    for repeats in REACHABLE_REPEATS:
        questions = Questions(with_repeats(program, forms, repeats), settles=True, only=frozenset())
        void = {line for trouble in contradictions(questions) for line in trouble.lines}
        cone = questions.reach.cone(_unsettled_beside(questions, void))
        doubts = Doubts(program, questions.moment)
        if void:
            doubts.suppose_settled()
            answer = reach(cone, budget, looked_at_again, engines={Engine.REFINEMENT})
        else:
            answer = reach(cone, budget, doubts.settling(questions.moment))
        if isinstance(answer, Impossible):
            return with_repeats(program, forms, repeats), None, doubts
        if isinstance(answer, Happens):
            story = tell(cone, answer.trace, False, involved(cone))
            timeline = played(program, story)
            if not timeline.settles:
                trouble = _unsettled(program, _with_aside(program, answer, story, budget), timeline)
                return with_repeats(program, forms, repeats), *_not_settled(trouble, doubts)
    trouble = Trouble(Obstacle.UNSETTLED_UNKNOWN, None)
    return with_repeats(program, forms, REACHABLE_REPEATS[-1]), *_not_settled(trouble, doubts)


def _with_aside(program: Program, found: Happens, story: Story, budget: Budget) -> Story:
    """The story that never settles with what is to be said beside it."""

    def confirm(other: Story) -> None:
        if played(program, other).settles:
            raise StoryRefused("it settles after all")

    try:
        teller = Teller(program, found.cone, confirm, True, looked_at_again, budget.part(ASIDE_SHARE))
        return teller.with_aside(found.trace, story, found.settled)
    except StoryRefused:  # another one settles, but only after more repeats than were looked at
        return replace(story, aside=Aside(found.settled, Answer.OPEN if story.coincidences else None))


def _unsettled_beside(questions: Questions, void: set[Line]) -> Lit:
    """Something still changes that these lines do not touch."""
    moment = questions.moment
    if not void:
        return moment.unsettled
    return moment.system.aig.any_of(
        lit for lit in moment.changes if not void & {c.line for c in questions.reach.cone(lit).constraints}
    )


def _not_settled(trouble: Trouble, doubts: Doubts) -> tuple[Trouble, Doubts]:
    doubts.suppose_settled()
    return trouble, doubts


def _unsettled(program: Program, story: Story, timeline: Timeline) -> Trouble:
    moment = timeline.played[-1].moment
    ends = sorted(tuple(sorted(closed)) for closed in outcomes(Machine(program), moment))
    return Trouble(Obstacle.UNSETTLED, story, outcomes=tuple(ends), chasing=tuple(sorted(chasing(moment))))


def involved(cone: Cone) -> frozenset[str]:
    """The names of the world that a cone involves; what copper and box add is found when the story is shown."""
    return frozenset(cone.world)


def contradictions(questions: Questions) -> list[Trouble]:
    """Why no world at time 0 meets what is given: lines that cannot hold together, as few as dropping one by one gives,
    again and again until what is left can."""
    system = questions.moment.system
    sat = Sat("cadical153")
    lits = [c.lit for c in system.constraints]
    circuit = Circuit(sat, Template(system.aig, system.aig.cone(lits)))
    for bit in system.bits.values():
        if bit.now >> 1 in circuit.number:
            sat.add([-circuit.lit(bit.now)])
    for constraint in system.constraints:
        if constraint.line is None:
            sat.add([circuit.lit(constraint.lit)])
    given = [(c.line, circuit.lit(c.lit)) for c in system.constraints if c.line is not None]
    found = []
    while not sat.solve([lit for _, lit in given]):
        core = list(given)
        for entry in given:
            fewer = [other for other in core if other is not entry]
            if not sat.solve([lit for _, lit in fewer]):
                core = fewer
        found.append(_trouble(Obstacle.CONTRADICTION, None, [line for line, _ in core]))
        given = [entry for entry in given if entry not in core]
    sat.close()
    return found


def _trouble(obstacle: Obstacle, story: Story | None, lines: Iterable[Line]) -> Trouble:
    lines = tuple(dict.fromkeys(lines))
    return Trouble(obstacle, story, tuple(line.text for line in lines), lines)


def stopped_time(questions: Questions, doubts: Doubts, budget: Budget) -> tuple[list[Trouble], list[Doubtful]]:
    """Situations from which time cannot go on; and the lines of which it is not decided whether they stop time."""
    found = time_stops(questions, doubts, budget)
    told = ((stop, _told(stop, questions.settles, budget)) for stop in found.stops)
    return [_trouble(Obstacle.TIME_STOPS, story, stop.lines) for stop, story in told], found.doubtful


def _told(stop: Stop, settles: bool, budget: Budget) -> Story:
    """The story of a stop. Without any coincidence there may be stuck situations that time passes by: these are not
    looked into."""
    story = tell(stop.cone, stop.trace, False, involved(stop.cone))
    if not story.coincidences:
        return story
    answer, _ = happens_apart(stop.cone, story, settles, budget.part(ASIDE_SHARE))
    return replace(story, aside=Aside(apart=Answer.NO if answer is Answer.NO else Answer.OPEN))
