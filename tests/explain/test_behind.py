"""What is behind a fact is true: on random programs against the moments as they were played, and by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from random import Random

from logiccheck.explain.behind import About, Behind, behind
from logiccheck.explain.facts import function
from logiccheck.explain.history import Blank, owner_of, past, run_of
from logiccheck.explain.reasons import reason
from logiccheck.explain.situation import Situation, signals
from logiccheck.lang.program import Bistable, Expr, Impulse, Program, Signal, Timer, TimerKind
from logiccheck.model.play import first_world, play
from logiccheck.model.timeline import Played, Timeline
from logiccheck.model.truth import Node
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.oracle.walks import Walker

SEEDS = range(60)


def each(found: Behind) -> Iterator[Behind]:
    """It and all that is behind it."""
    yield found
    for further in found.next:
        yield from each(further)


def moment(timeline: Timeline, time: object) -> Played:
    """The moment at just this time."""
    return next(played for played in timeline.settled if played.time == time)


def operand(found: Behind) -> Expr:
    """What the reason is for."""
    node = found.fact.leaf
    match found.about, node:
        case About.SET, Bistable(set=part):
            return part
        case About.RESET, Bistable(reset=part) | Impulse(reset=part):
            return part
        case About.INPUT, _:
            assert isinstance(node, Node)
            assert not isinstance(node, Bistable)
            return node.x
        case _:
            return node


def check(timeline: Timeline, found: Behind, seen: Counter[str]) -> None:
    """Everything that is claimed of one fact holds of the moments as they were played."""
    node, at = found.fact.leaf, found.at
    if found.reason is None:
        return
    seen[found.about.value] += 1
    before = [played for played in timeline.settled if played.time <= at][-1]
    part = operand(found)
    if found.about is About.ITSELF and isinstance(node, Signal):
        assert before.moment.settled.holds(part) == found.value == found.fact.value
    else:
        assert any(reaction.holds(part) == found.value for reaction in before.moment.reactions)
    there = [
        reaction
        for reaction in before.moment.reactions
        if all(reaction.holds(fact.leaf) == fact.value for fact in found.reason.facts)
    ]
    assert there, "no reaction of that moment shows these facts"
    if found.about is About.SET and found.value:
        assert isinstance(node, Bistable)
        assert node.key in before.moment.memory.bits
        seen["set"] += 1
    if isinstance(node, Timer) and node.kind is TimerKind.ONE_SHOT and found.value:
        assert node.key in before.moment.started
        seen["started"] += 1


def check_past(situation: Situation, found: Behind, seen: Counter[str]) -> None:
    """Since when, how long a timer runs still, and that what never came on never did."""
    fact, timeline = found.fact, situation.timeline
    so_far = past(situation, fact.leaf)
    if so_far.run is not None:
        assert run_of(situation, fact.leaf) == so_far.run  # type: ignore[arg-type]
        assert so_far.run.start <= situation.time
        assert so_far.run.left > 0
        end = situation.time + so_far.run.left
        later = [played for played in timeline.played if situation.time < played.time <= end and played.moment.settles]
        keys = {k for k, _ in situation.played.moment.memory.clocks if k.startswith(fact.leaf.key)}  # type: ignore[union-attr]
        broken_off = any(not keys & {k for k, _ in p.moment.memory.clocks} for p in later if p.time < end)
        if later and later[-1].time == end and not broken_off and not any(keys & p.moment.started for p in later[:-1]):
            assert keys & later[-1].due, f"{fact.leaf} does not end at {end}"
            seen["ends as said"] += 1
    here = [p for p in timeline.settled if so_far.since <= p.time <= situation.time]
    if isinstance(fact.leaf, Bistable | Impulse) and fact.leaf.retained:
        return
    assert all(p.moment.settled.holds(fact.leaf) == fact.value for p in here)
    if isinstance(fact.leaf, Node):
        assert all(reaction.holds(fact.leaf) == fact.value for p in here[1:] for reaction in p.moment.reactions)
    if so_far.blank is not None:
        guard = owner_of(situation.program, fact.leaf).guard  # type: ignore[arg-type]
        assert not fact.value
        if so_far.blank is not Blank.START:
            assert guard is not None
            earlier = [p for p in timeline.settled if p.time < so_far.since][-1]
            first = moment(timeline, so_far.since).moment
            gone = not earlier.moment.settled.holds(guard) or not all(r.holds(guard) for r in first.reactions)
            assert gone, "power or supply was there before"
            seen["blank"] += 1
    elif not so_far.from_start:
        earlier = [p for p in timeline.settled if p.time < so_far.since][-1]
        reactions = [earlier.moment.settled, *moment(timeline, so_far.since).moment.reactions]
        assert any(reaction.holds(fact.leaf) != fact.value for reaction in reactions)
        seen["changed"] += 1


def walked(program: Program, seed: int) -> Timeline:
    """A random walk, played."""
    walk = Walker(program, program.requirements[0].form, Random(seed)).go(10)
    chosen = {change.name: change.value for change in walk.changes if change.time == 0}
    return play(program, walk.changes, walk.runs, walk.end, first_world(program, chosen, program.at_first))


def test_random_programs() -> None:
    """Of every signal at every moment of a random walk; and the walks are not dull."""
    seen: Counter[str] = Counter()
    for seed in SEEDS:
        program = loaded(random_program(seed).text)
        timeline = walked(program, seed)
        for played in timeline.settled[1:]:
            situation = Situation(timeline, played.time)
            for asked in signals(program).values():
                facts = reason(function(program, situation.values, asked.on)).facts
                for top in behind(situation, facts):
                    check_past(situation, top, seen)
                    for found in each(top):
                        check(timeline, found, seen)
    wanted = {*(about.value for about in About), "set", "started", "ends as said", "blank", "changed"}
    assert wanted <= {what for what, count in seen.items() if count >= 10}, seen
