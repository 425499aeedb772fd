"""The greatest current of each feed, held against visiting every situation of random vehicles with memory and timers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.draws.draws import IN_BOX
from logiccheck.copper.draws.worst import Worst
from logiccheck.explain.asking import Blocked
from logiccheck.lang.program import Program
from logiccheck.model.interpreter import Machine
from logiccheck.model.observed import signal
from logiccheck.model.play import play_story
from logiccheck.model.signals import Instant
from logiccheck.model.story import Story
from logiccheck.study.currents import Currents, currents
from tests.campaign import seeds
from tests.copper.draws.optimum import BOX, Explored, Flow, explored, things
from tests.copper.draws.vehicles import random_vehicle
from tests.oracle.explorer import TooBig

LIMIT = 3_000


def told(found: Currents, truth: Explored) -> Iterator[tuple[str, str, Worst, Fraction]]:
    """For each feed: its name, what of it, what is said, and what is so."""
    for given in found.given:
        name = BOX if given.supply.feed.name == IN_BOX else given.supply.feed.name
        yield name, "current", given.worst, truth.most[name]
        if given.rush is not None:
            yield name, "inrush", given.rush, truth.rush[name]


def wrong(program: Program, inrush: bool, mix: Counter[str]) -> Iterator[str]:
    """What of the answer the explorer, or the interpreter, denies."""
    found = currents(program, Budget(60.0), lambda _: None)
    feeds = [BOX if given.supply.feed.name == IN_BOX else given.supply.feed.name for given in found.given]
    truth = explored(program, feeds, LIMIT, inrush)
    blocked = any(isinstance(each, Blocked) for each in found.left)
    for name, what, worst, most in told(found, truth):
        mix[f"{what}, {'exact' if worst.exact else 'bounds'}"] += 1
        if worst.least > most and not blocked:
            yield f"{what} of {name}: {worst.least} A reached, and no situation has more than {most} A"
        if worst.most < most and not truth.unsettled:
            yield f"{what} of {name}: never more than {worst.most} A, and some situation has {most} A"
        if not (worst.exact or found.left):
            yield f"{what} of {name}: no reason why it is not known"
        if worst.story is None and worst.least:
            yield f"{what} of {name}: {worst.least} A without a story"
        if worst.story is not None and (amperes := ends(program, worst.story, name, what == "inrush")) != worst.least:
            yield f"{what} of {name}: the story ends with {amperes} A, and not {worst.least} A"
    for given in found.given:
        mix["less than all together"] += given.worst.exact and given.worst.most < given.supply.together
        mix["more ways"] += any(fed.passing.shared for fed in given.supply.fed)


def ends(program: Program, story: Story, feed: str, rush: bool) -> Fraction:
    """The current of a feed where the story ends, played on the vehicle as its user wrote it."""
    own = Machine(program).windows.keys()
    steps = tuple(replace(step, due=tuple(key for key in step.due if key in own)) for step in story.steps)
    timeline = play_story(program, replace(story, steps=steps, runs=tuple(r for r in story.runs if r.key in own)))
    end = timeline.settled[-1].moment.settled
    through = Flow(program, end.holds).through(feed)
    amperes = Fraction(0)
    for thing in things(program):
        if thing.at in through and end.holds(thing.on):
            come_up = not thing.time or signal(timeline, thing.timer).value(Instant(timeline.end))
            amperes += thing.rush if rush and not come_up else thing.amperes
    return amperes


def run(some: range, inrush: bool) -> tuple[list[str], Counter[str]]:
    """What is wrong in these vehicles, and what there was in them."""
    mix: Counter[str] = Counter()
    bad: list[str] = []
    for seed in some:
        try:
            bad += [f"vehicle {seed}: {line}" for line in wrong(random_vehicle(seed, inrush), inrush, mix)]
            mix["vehicles"] += 1
        except TooBig:
            mix["too big"] += 1
    return bad, mix


def test_currents_agree_with_the_explorer() -> None:
    """What is reached is a situation, and what is said to be the most is."""
    bad, mix = run(range(60), inrush=False)
    assert not bad, "\n".join(bad)
    assert mix["current, exact"] >= 100, mix
    assert mix["less than all together"] >= 30, mix
    assert mix["more ways"] >= 20, mix


def test_inrush_agrees_with_the_explorer() -> None:
    """The same with what has just come on counted as its inrush."""
    bad, mix = run(range(10_000, 10_025), inrush=True)
    assert not bad, "\n".join(bad)
    assert mix["inrush, exact"] >= 25, mix


@pytest.mark.long
def test_currents_agree_with_the_explorer_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many vehicles as CAMPAIGN_COUNT says."""
    for inrush in (False, True):
        bad, mix = run(seeds(), inrush)
        with capsys.disabled():
            print(f"\n{dict(mix)}")
        assert not bad, "\n".join(bad)
