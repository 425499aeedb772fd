"""When a fault is there makes a difference: from the start, from some moment on, or now and then."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.copper.faults.answers import Fails, Holds
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import When, faults_of
from logiccheck.lang.program import SignalKind
from logiccheck.model.judge import broken as unmet
from logiccheck.model.judge import violated
from logiccheck.model.play import play_story
from logiccheck.model.story import Step, Story
from tests.copper.faults.breaking import broken, table
from tests.oracle.loading import loaded

HEAD = """
vehicle "Planted"
world
    battery connected | disconnected
    speed   0 .. 100 rpm
    at first battery is connected, speed is 0 rpm
harness
    source plus when battery is connected
    wire feed from plus
    wire s_wire {wired}
controller "Box" powered by feed
    sense s from s_wire live
    sense revs from speed
"""

FROM_THE_START = f"""{HEAD.format(wired="")}
    rule seen_off = bistable(set not s, retained)
    output lamp when s and not seen_off or revs above 50 rpm
requirements
    danger dark never lamp while speed below 10 rpm
"""

LATER = f"""{HEAD.format(wired="from feed")}
    rule seen_on = bistable(set s, retained)
    output lamp when seen_on and not s or revs above 50 rpm
requirements
    danger dark never lamp while speed below 10 rpm
"""

LOOSE = f"""{HEAD.format(wired="from feed")}
    rule fell = bistable(set falls(s), retained)
    output lamp when fell and s or revs above 50 rpm
requirements
    danger dark never lamp while speed below 10 rpm
"""

CLOCKED = """
vehicle "Planted"
world
    key    off | on
    tick   off | on
    at first key is on
harness
    source plus
    wire feed  from plus
    wire power from plus when key is on
controller "Box" powered by power
    output lamp when true
    output pump when true fed by feed
requirements
    danger   lit   never powered and not lamp
    function back  not powered or lamp only after powered
    function again key becomes on calls for lamp no later than 1 s, excused by key is off
"""

HOLDING = f"""{HEAD.format(wired="")}
    output lamp when revs above 50 rpm
    output horn when revs above 20 rpm and not lamp
requirements
    danger   dark    never lamp while speed below 50 rpm for longer than 1 s
    danger   between never lamp and horn
    danger   jumped  lamp waits for speed above 50 rpm
"""


def of_dark(text: str, fault: str) -> str:
    return table(broken(text))[fault, "dark"]


def test_a_fault_that_breaks_something_only_from_the_start() -> None:
    assert of_dark(FROM_THE_START, "s live") == "F.."


def test_a_fault_that_breaks_something_only_at_the_worst_moment() -> None:
    assert of_dark(LATER, "s dead") == ".FF"


def test_a_fault_that_breaks_something_only_when_it_comes_and_goes() -> None:
    assert of_dark(LOOSE, "s dead") == "..F"


def test_what_tripped_is_off_until_the_box_was_without_power() -> None:
    """Every story in which it is off has power all the time since it tripped; once power was lost it works again."""
    found = broken(CLOCKED)
    assert table(found)["lamp tripped", "lit"] == "-F-"
    assert table(found)["lamp tripped", "again"] == "-F-"
    program = loaded(CLOCKED)
    fault = next(each for each in faults_of(program) if each.id == "lamp tripped")
    vehicle = together(program, (fault,), When.LATER)
    story = next(p.later for p in found.pairs if p.fault.id == fault.id and p.requirement.name == "lit")
    assert isinstance(story, Fails)
    assert story.story is not None
    off = story.story.steps[-1]
    world = dict(off.world)
    power_lost = Step(off.time + 1_000_000, tuple((world | {"key": 0}).items()), ())
    power_back = Step(off.time + 2_000_000, tuple((world | {"key": 1}).items()), ())
    longer = Story((*story.story.steps, power_lost, power_back), (), False, story.story.involved)
    timeline = play_story(vehicle, longer)
    assert not unmet(timeline)
    lamp = [each.moment.settled.is_true(SignalKind.OUTPUT, "lamp") for each in timeline.played]
    assert lamp[-3:] == [False, False, True]


def test_a_sensor_that_holds_keeps_the_value_of_just_before() -> None:
    """It shows what the number was, not what it becomes at that very moment, and never two values at once."""
    got = table(broken(HOLDING))
    assert got["revs holding", "dark"] == ".FF"  # from the start it holds the speed of time 0
    assert got["revs holding", "between"] == "..."
    assert got["revs holding", "jumped"] == "..."
    assert got["revs high", "jumped"] == "FFF"


def test_each_story_plays_on_the_vehicle_that_has_the_fault_alone() -> None:
    for text in (FROM_THE_START, LATER, LOOSE, HOLDING):
        program, found = loaded(text), broken(text)
        told = 0
        for pair in found.pairs:
            for when, outcome in pair.outcomes():
                assert isinstance(outcome, Holds | Fails)
                if isinstance(outcome, Fails) and outcome.story is not None:
                    told += 1
                    timeline = play_story(together(program, (pair.fault,), when), outcome.story)
                    assert not unmet(timeline)
                    form = next(
                        (r.form for r in timeline.program.requirements if r.name == pair.requirement.name),
                        pair.requirement.form,
                    )
                    assert violated(timeline, form) is not None
                    assert outcome.story.steps[0].time == Fraction(0)
                    assert pair.fault.id in dict(outcome.story.steps[0].world)
        assert told
