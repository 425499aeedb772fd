"""What is given, decided by the engine: which courses of the world remain, and where it is itself in trouble.

The rows are those that `tests.model` has the judge decide.
"""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Obstacle
from logiccheck.lang.program import Program
from tests.engine.following import LATER, so_far, told, verdicts
from tests.model.driven import micros, program
from tests.model.test_assumptions import CASES


def contacts(given: str, *asked: str, first: str = "") -> Program:
    lines = "".join(f"    function f{number} {text}\n" for number, text in enumerate(asked))
    return program(
        f'vehicle "Test"\nworld\n    p contact\n    q contact\n    {first}\ngiven\n    {given}\nrequirements\n{lines}'
    )


@pytest.mark.parametrize(("case", "given", "p", "q", "expected"), CASES, ids=[row[0] for row in CASES])
def test_an_assumption_on_two_contacts(case: str, given: str, p: str, q: str, expected: str) -> None:
    """A story can follow the course until just before the first instant at which it is not met, and no longer."""
    course = so_far({"p": p, "q": q})
    if expected == "holds":
        assert told(contacts(given, f"possible on_delay(true, 100 s) and {course}")) == {"f0": "proved"}
        return
    end = micros(expected.removeprefix("at "))
    asked = [f"possible on_delay(true, {time} us) and {course}" for time in (end - LATER, end)]
    assert told(contacts(given, *asked)) == {"f0": "proved", "f1": "fails"}


def test_G1_physics_after_a_time() -> None:
    """A short gap of the ignition lets all stories remain; only once it has lasted must the engine stand still."""
    course = so_far({"key": "[0,5) [5.1,20)"})
    vehicle = program(f"""
vehicle "Test"
world
    key contact
    engine 0 .. 7000 rpm
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key
controller "Box" powered by feed
    sense key_on from key_wire live
    output ignition when key_on
given
    engine is 0 rpm after not ignition has lasted 3 s
requirements
    function turning possible engine above 0 rpm and on_delay(true, 8 s) and {course}
    function stopping possible engine above 0 rpm and not ignition and on_delay(true, 22 s) and {course}
    function stopped possible engine above 0 rpm and on_delay(true, 23 s) and {course}
    danger turns never engine above 0 rpm and not ignition for longer than 3 s
    danger turns_less never engine above 0 rpm and not ignition for longer than 2.9 s
""")
    assert told(vehicle) == {
        "turning": "proved",
        "stopping": "proved",
        "stopped": "fails",
        "turns": "proved",
        "turns_less": "fails overdue at 2.9",
    }


def test_G2_time_stops() -> None:
    """After a shortest and a shorter longest time nothing can be done: both lines are named, 30 s after p begins."""
    vehicle = contacts("p lasts at least 60 s\n    p lasts at most 30 s", "possible q", "possible p")
    check = check_program(vehicle)
    (trouble,) = check.troubles
    assert trouble.obstacle is Obstacle.TIME_STOPS
    assert sorted(trouble.givens) == ["p lasts at least 60 s", "p lasts at most 30 s"]
    assert trouble.story is not None
    times = [step.time for step in trouble.story.steps]
    assert len(times) == 3
    assert times[2] - times[1] == micros("30")
    assert [verdict.kind for verdict in check.verdicts] == [Kind.PROVED, Kind.BLOCKED]


@pytest.mark.parametrize(("first", "moments"), [("at first key is off", 4), ("at first key is run", 2), ("", 1)])
def test_G3_one_by_one(first: str, moments: int) -> None:
    """From off the key needs three moments to start, four with time 0."""
    vehicle = program(
        f'vehicle "Test"\nworld\n    key off | accessory | run | start one by one\n    {first}\n'
        "requirements\n    function f possible key is start\n"
    )
    story = verdicts(vehicle)["f"].story
    assert story is not None
    assert [dict(step.world)["key"] for step in story.steps] == list(range(4 - moments, 4))


def test_G4_a_step_does_not_move_by_itself() -> None:
    """It moves only just after a button was held."""
    vehicle = program("""
vehicle "Test"
world
    step in | out
    step_out contact
    step_in contact
    at first step is in
given
    step changes only while step_out or step_in
requirements
    danger by_itself step is out only after step_out or step_in
    danger unheld    step is out only after step_out
""")
    assert [verdict.kind for verdict in verdicts(vehicle).values()] == [Kind.PROVED, Kind.FAILS]


def test_G5_a_contradiction_at_first() -> None:
    """Both are named, before any verdict; with one of the two contacts off there is none."""
    check = check_program(contacts("never p and q", "possible p", first="at first p is on, q is on"))
    (trouble,) = check.troubles
    assert (trouble.obstacle, trouble.story) == (Obstacle.CONTRADICTION, None)
    assert set(trouble.givens) == {"at first", "never p and q"}
    assert [verdict.kind for verdict in check.verdicts] == [Kind.BLOCKED]
    assert told(contacts("never p and q", "possible p", first="at first p is on, q is off")) == {"f0": "proved"}


def test_G8_without_jumps() -> None:
    """From 0 to above 400 the number passes 300, the interval between, and 400: four moments beside time 0."""
    vehicle = program("""
vehicle "Test"
world
    engine 0 .. 7000 rpm
    at first engine below 300 rpm
given
    engine without jumps
requirements
    function high possible engine above 400 rpm
""")
    story = verdicts(vehicle)["high"].story
    assert story is not None
    speeds = [dict(step.world)["engine"] for step in story.steps]
    assert len(speeds) == 5
    assert speeds[0] < speeds[1] == 300 < speeds[2] < speeds[3] == 400 < speeds[4]


def test_what_must_be_reached_step_by_step_stops_no_time() -> None:
    """The engine can always begin to slow down early enough: nothing that is given stops time."""
    vehicle = program("""
vehicle "Test"
world
    x contact
    engine 0 .. 7000 rpm
given
    engine is 0 rpm after not x has lasted 3 s
    engine without jumps
requirements
    danger d never engine above 400 rpm and not x for longer than 3 s
    danger e never engine above 400 rpm and not x for longer than 2 s
""")
    assert [verdict.kind for verdict in verdicts(vehicle).values()] == [Kind.PROVED, Kind.FAILS]
