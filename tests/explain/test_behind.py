"""What is behind a fact is true: on random programs against the moments as they were played, and by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from random import Random

import pytest

from logiccheck.explain.behind import About, Behind, behind
from logiccheck.explain.facts import function, key_of
from logiccheck.explain.history import Blank, owner_of, past, run_of
from logiccheck.explain.reasons import reason
from logiccheck.explain.situation import Situation, signals
from logiccheck.lang.program import (
    Bistable,
    Edge,
    Expr,
    Impulse,
    Previous,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
)
from logiccheck.model.play import first_world, play, play_scenario
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
        case About.INPUT | About.INSTANT, _:
            assert isinstance(node, Node)
            assert not isinstance(node, Bistable)
            return node.x
        case _:
            return node


def shows(timeline: Timeline, played: Played, number: int, found: Behind) -> bool:
    """All facts of the reason hold in this reaction; an output as the reaction before left it, or as it is now."""
    assert found.reason is not None
    reactions = played.moment.reactions
    earlier = [each for each in timeline.settled if each.time < played.time]
    last = reactions[number - 1] if number else earlier[-1].moment.settled if earlier else None

    def holds(leaf: Expr) -> bool:
        if isinstance(leaf, Signal) and leaf.kind is SignalKind.OUTPUT:
            return last is not None and leaf.name in last.memory.outputs
        return reactions[number].holds(leaf)

    facts = found.reason.facts
    plain = all(reactions[number].holds(fact.leaf) == fact.value for fact in facts)
    return plain or all(holds(fact.leaf) == fact.value for fact in facts)


def check_off_delay(timeline: Timeline, found: Behind, node: Timer, start: Played) -> None:
    """Its run began as an input went off that had been on before, or that was on for an instant only."""
    earlier = [played for played in timeline.settled if played.time < start.time]
    was = bool(earlier) and node.key in earlier[-1].moment.memory.operands
    never_off = was and all(
        node.key in reaction.memory.operands or node.key in dict(reaction.memory.clocks)
        for reaction in start.moment.reactions
    )
    assert was or found.about is About.INSTANT
    assert never_off or found.about is About.INSTANT
    assert found.value == (found.about is About.INSTANT)


def check_over(timeline: Timeline, found: Behind, node: Timer, seen: Counter[str]) -> None:
    """What is told of its input is told of where its run began, after which it was on without a break."""
    since = [played for played in timeline.settled if found.at <= played.time < found.past.since]
    if not since:
        return
    assert node.key in dict(since[0].moment.memory.clocks)
    assert dict(since[0].moment.memory.clocks)[node.key] == 0
    assert all(node.key in dict(played.moment.memory.clocks) for played in since)
    seen["over"] += 1


def circles(found: Behind, above: tuple[Behind, ...] = ()) -> Iterator[Behind]:
    """Facts of which it is said that what is behind them is themselves, though they were once otherwise."""
    this = key_of(found.fact.leaf), found.fact.value
    for one in above if found.known else ():
        if (key_of(one.fact.leaf), one.fact.value) == this and not one.past.from_start:
            yield found
    for further in found.next:
        if further.fact.leaf != found.fact.leaf or found.past.run is None:
            yield from circles(further, (*above, found))


def check(timeline: Timeline, found: Behind, seen: Counter[str]) -> None:
    """Everything that is claimed of one fact holds of the moments as they were played."""
    node, at = found.fact.leaf, found.at
    if found.reason is None:
        return
    seen[found.about.value] += 1
    before = [played for played in timeline.settled if played.time <= at][-1]
    part = operand(found)
    settled = before.moment.settled.holds(node) == found.fact.value
    if found.about is About.ITSELF and isinstance(node, Signal) and settled:
        assert before.moment.settled.holds(part) == found.value == found.fact.value
    else:
        assert any(reaction.holds(part) == found.value for reaction in before.moment.reactions)
    assert any(shows(timeline, before, number, found) for number in range(len(before.moment.reactions))), (
        "no reaction of that moment shows these facts"
    )
    seen["passing"] += not settled and found.past.since == at
    if found.about is About.SET and found.value and settled:
        assert isinstance(node, Bistable)
        assert node.key in before.moment.memory.bits
        seen["set"] += 1
    if isinstance(node, Timer) and node.kind is TimerKind.OFF_DELAY and found.past.run is not None:
        check_off_delay(timeline, found, node, before)
    if isinstance(node, Timer) and node.kind is TimerKind.ON_DELAY and found.fact.value:
        check_over(timeline, found, node, seen)
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
                    assert not list(circles(top)), (seed, played.time, asked.name)
                    check_past(situation, top, seen)
                    for found in each(top):
                        check(timeline, found, seen)
    wanted = {
        *(about.value for about in About if about is not About.INSTANT),  # that one is tried below
        "set",
        "started",
        "ends as said",
        "blank",
        "changed",
        "over",
        "passing",
    }
    assert wanted <= {what for what, count in seen.items() if count >= 10}, seen


PULSED = """
vehicle "Pulsed"
world
    a contact
harness
    source plus
    relay r2 coil on_delay(a, 1 s) and not r3 supply plus
    relay r3 coil off_delay(r2, 2 s) supply plus
    wire o from plus when r3
    load lo on o 1 A
scenario sc
    at 1 s a is on
    until 3 s
"""
LATCHED = """
vehicle "Latched"
world
    key off | acc | run one by one
    btn contact
harness
    source plus
    wire sup from plus when key in {acc, run}
    wire kw from plus when key is run
    wire bw from plus when btn
    wire loopw
controller "Box" powered by sup after 0.5 s
    sense k from kw live
    sense x from loopw live
    sense b from bw live
    output latch when b or x feeds loopw
    output cause when off_delay(rises(k), 5 s)
    rule lat = previous(lat) or b
    output lato when lat
scenario sc
    at 1 s key is acc
    at 2 s key is run
    at 3 s btn is on
    at 4 s btn is off
    at 4.5 s key is acc
    at 5 s key is off
    at 6 s key is acc
    until 12 s
"""
SECOND = 1_000_000
BUTTON = [(3, "b"), (3, "btn")]


@pytest.mark.parametrize(
    ("text", "name", "time", "ends"),
    [
        (PULSED, "r3", "2.5", [(2, "r2"), (2, "on_delay"), (1, "a")]),
        (LATCHED, "cause", "2.5", [(2, "rises"), (2, "k"), (2, "key")]),
        (LATCHED, "latch", "4.2", [(3, "latch"), *BUTTON]),
        (LATCHED, "lato", "4.2", BUTTON),
        (LATCHED, "latch", "7", [(5, "powered")]),
        (LATCHED, "powered", "2.5", [(1, "key")]),
    ],
)
def test_down_to_what_made_it_so(text: str, name: str, time: str, ends: list[tuple[int, str]]) -> None:
    """Each of these facts is given as a reason, as of that second."""
    program = loaded(text)
    (scenario,) = program.scenarios
    situation = Situation(play_scenario(program, scenario), int(Fraction(time) * SECOND))
    facts = reason(function(program, situation.values, signals(program)[name].on)).facts
    given = set()
    for top in behind(situation, facts):
        assert not list(circles(top))
        for found in each(top):
            for fact in found.reason.facts if found.reason else ():
                leaf = fact.leaf
                called = getattr(leaf, "name", "") or {Timer: "on_delay", Edge: "rises"}.get(type(leaf), "")
                given.add((found.at // SECOND, called))
    assert set(ends) <= given, given


def test_a_latch_forgets_with_the_power() -> None:
    """What a line was before is not off because its button is off, but because the box slept."""
    program = loaded(LATCHED)
    situation = Situation(play_scenario(program, program.scenarios[0]), 7 * SECOND)
    facts = reason(function(program, situation.values, signals(program)["lato"].on)).facts
    before = next(found for found in behind(situation, facts) if isinstance(found.fact.leaf, Previous))
    assert before.past.forgotten
    assert before.past.since == 5 * SECOND
    assert before.reason is None
