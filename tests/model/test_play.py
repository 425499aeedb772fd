"""Playing in time: what becomes a moment, worlds that are completed, stories and scenarios."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.lang.program import WorldSet
from logiccheck.model.interpreter import Impossible
from logiccheck.model.play import first_world, play, play_scenario, play_story
from logiccheck.model.story import Run, Step, Story
from tests.model.driven import SECOND, boxed, drive, program, when_true

PAIR = boxed("output q when one_shot(x, 3 s +- 1 s)", "output k when off_delay(y, 2 s)", inputs=("x", "y"))


def times(*seconds: int) -> list[int]:
    return [each * SECOND for each in seconds]


def test_all_that_falls_on_one_instant_is_one_moment() -> None:
    """Two changes, and a change with a due timer, are one moment each; every due timer is a moment of its own."""
    timeline = drive(PAIR, "9", x="[1,4)", y="[1,2)")
    assert [each.time for each in timeline.played] == times(0, 1, 2, 4)
    assert timeline.played[3].due == {"q", "k"}
    assert timeline.played[3].world == {"x": 0, "y": 0}
    assert timeline.end == 9 * SECOND


def test_a_run_lasts_as_chosen() -> None:
    """Only the run that is named; the others last their nominal time."""
    timeline = drive(PAIR, "20", [("q", "1", "2.5")], x="[1,1.5) [10,11)")
    assert when_true(timeline, "q") == "[1,3.5) [10,13)"


def test_a_choice_outside_the_window_is_refused() -> None:
    """A run shorter or longer than the tolerance allows cannot be played."""
    with pytest.raises(Impossible, match="q cannot last 4500000 us: only 2000000"):
        drive(PAIR, "20", [("q", "1", "4.5")], x="[1,1.5)")


def test_a_choice_that_is_not_used_is_told() -> None:
    """The timeline names the runs that did not begin when they were said to."""
    run = Run("q", Fraction(2 * SECOND), Fraction(2 * SECOND))
    timeline = play(PAIR, [WorldSet(SECOND, "x", 1)], [run], 9 * SECOND, {"x": 0, "y": 0})
    assert timeline.unused == (run,)


WORLD = program("""
vehicle "Test"
world
    a contact
    b contact
    key off | run | start
    engine 0 .. 7000 rpm
    at first key is not off, engine above 300 rpm
given
    never not a and not b
requirements
    danger d never engine below 400 rpm
""")


def test_a_world_is_completed_lawfully() -> None:
    """What is not chosen takes the first value that meets the facts; with no facts the first position or low end."""
    assert first_world(WORLD, {}, ()) == {"a": 0, "b": 0, "key": 0, "engine": 0}
    found = first_world(WORLD, {"b": 1}, WORLD.at_first)
    assert (found["a"], found["b"], found["key"]) == (0, 1, 1)
    assert found["engine"] > 300
    assert first_world(WORLD, {"key": 0, "engine": 5}, WORLD.at_first)["engine"] == 5


def test_a_story_is_played_with_a_lawful_rest() -> None:
    """Names that the story does not involve keep one value, which meets `at first` and the exclusions."""
    steps = (Step(Fraction(0), (("key", 1),), ()), Step(Fraction(SECOND), (("key", 2),), ()))
    timeline = play_story(WORLD, Story(steps, (), False, frozenset({"key"})))
    assert [each.world["key"] for each in timeline.played] == [1, 2]
    assert [(each.world["a"], each.world["b"]) for each in timeline.played] == [(0, 1), (0, 1)]
    assert play_story(WORLD, Story(steps, (), False, frozenset({"key"})), {"a": 1}).played[0].world["b"] == 0


def test_a_story_must_come_true() -> None:
    """A timer that the story says falls due must fall due then, and a run it names must begin."""
    first = Step(Fraction(0), (("x", 1),), ())

    def story(due_at: int, run_at: int) -> Story:
        second = Step(Fraction(due_at * SECOND), (("x", 1),), ("q",))
        run = Run("q", Fraction(run_at * SECOND), Fraction(2 * SECOND))
        return Story((first, second), (run,), False, frozenset({"x", "q"}))

    assert play_story(PAIR, story(2, 0)).played[-1].due == {"q"}
    with pytest.raises(Impossible, match="q does not fall due at 3000000 us"):
        play_story(PAIR, story(3, 0))
    with pytest.raises(Impossible, match="no run of q begins at 1000000 us"):
        play_story(PAIR, story(3, 1))


def test_a_scenario_begins_as_the_world_does_at_first() -> None:
    """What it does not set at time 0 is as `at first` says, else the first position or the low end."""
    vehicle = program("""
vehicle "Test"
world
    key off | run | start
    door closed | open
    engine 0 .. 7000 rpm
    at first key is run
scenario plain
    at 2 s door is open
    until 5 s
scenario chosen
    at first key is start, engine is 900 rpm
    at 2 s door is open
""")
    plain, chosen = (play_scenario(vehicle, each) for each in vehicle.scenarios)
    assert plain.played[0].world == {"key": 1, "door": 0, "engine": 0}
    assert chosen.played[0].world == {"key": 2, "door": 0, "engine": 900}
    assert (plain.end, chosen.end) == (5 * SECOND, 2 * SECOND)
