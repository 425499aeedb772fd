"""Whether what is given can bring time to a stop: natural vehicles are decided, and what is not decided says why."""

from __future__ import annotations

import pytest

from logiccheck.engine import stops
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Check, Kind, Obstacle, Undecided
from tests.model.driven import program

SECONDS = 60.0

VAN = """
vehicle "Van"
world
    ignition contact
    engine 0 .. 7000 rpm
    oil 0 .. 6 bar
    coolant 0 .. 130 degC
    speed 0 .. 200 km/h
    gear neutral | first | second | third | reverse one by one
harness
    source plus
    wire feed from plus
    wire key_wire from plus when ignition
controller "Box" powered by feed
    sense key_on from key_wire live
    sense revs from engine
    sense pressure from oil
    sense warm from coolant
    sense moving from speed
    output pump when key_on
    output fan when warm above 95 degC until below 85 degC
    output buzzer when revs above 1000 rpm and pressure below 1 bar
    output lamp when moving above 5 km/h or revs above 6000 rpm
    output shift when moving above 100 km/h and revs above 4000 rpm
given
    engine is 0 rpm after not pump has lasted 3 s
    engine without jumps
    coolant without jumps
    never engine is 0 rpm and oil above 0.5 bar
    never engine above 400 rpm and oil below 0.2 bar
    oil above 1 bar after engine above 1000 rpm has lasted 5 s
    coolant below 110 degC after fan has lasted 5 min
    speed is 0 km/h after engine is 0 rpm has lasted 30 s
    never gear is reverse and speed above 20 km/h
    never gear is first and speed above 60 km/h
    gear is neutral lasts at most 10 min
requirements
    danger quiet never buzzer for longer than 5 s
    danger hot never coolant above 120 degC and speed above 100 km/h and buzzer
    danger stalled never engine above 400 rpm and not pump for longer than 3 s
"""

STEP = """
vehicle "Step"
world
    key off | accessory | run | start one by one
    door contact
    engine 0 .. 7000 rpm
    step in | between | out one by one
harness
    source plus
    wire feed from plus
    wire run_wire from plus when key in {run, start}
    relay hold coil off_delay(door, 4 min +- 10 %)
controller "Box" powered by feed
    sense run from run_wire live
    output ignition when run
    output step_out when not run
    output step_in when run
given
    engine is 0 rpm after not ignition has lasted 3 s
    engine above 300 rpm after key is run and hold has lasted 20 s
    key is start lasts at most 10 s
    step changes only while step_out or step_in
    step is out after step_out has lasted 4 s
    step is in after step_in has lasted 4 s
    never door and step is in
requirements
    danger a never engine above 6000 rpm and not ignition for longer than 3 s
"""

DEMANDING = "y is on after k has lasted 1 s"
CHANCE = """
    never not y and not x
    y changes only while x
    y changes only while on_delay(y, 1 s)
    not y after k has lasted 1 s
"""


def vehicle(given: str, *asked: str, coil: str = "x") -> Check:
    lines = "".join(f"    danger q{number} {text}\n" for number, text in enumerate(asked))
    text = f"""
vehicle "Small"
world
    x contact
    y contact
    z contact
harness
    source plus
    relay k coil {coil}
given
{given}
requirements
{lines}"""
    return check_program(program(text), SECONDS)


def kinds(check: Check) -> list[Kind]:
    return [verdict.kind for verdict in check.verdicts]


def test_a_van_with_many_thresholds_is_decided() -> None:
    """Three numbers with several thresholds each, a gear, and what excludes some of their combinations."""
    check = check_program(program(VAN), SECONDS)
    assert check.troubles == ()
    assert kinds(check) == [Kind.PROVED, Kind.FAILS, Kind.PROVED]


def test_a_step_that_is_driven_is_decided() -> None:
    """What an output must still allow before it may be so, a door that may have to be closed first."""
    check = check_program(program(STEP), SECONDS)
    assert check.troubles == ()
    assert kinds(check) == [Kind.PROVED]


def test_numbers_that_exclude_each_other_in_many_ways_are_decided() -> None:
    """Twenty lines tie five numbers in a ring; a world that is lawful for all of them is a way on from anywhere."""
    ring = [(i, (i + 1) % 5) for i in range(5)]
    world = "".join(f"    n{i} 0 .. 100 V\n" for i, _ in ring)
    tied = [f"never n{i} above {20 + 7 * j} V and n{k} below {5 + 3 * j} V" for i, k in ring for j in range(4)]
    forced = [f"n{i} below 50 V after k has lasted {5 + i} s" for i, _ in ring]
    lines = "".join(f"    {line}\n" for line in [*forced, *tied])
    text = f"""
vehicle "Ring"
world
    x contact
{world}
harness
    source plus
    relay k coil x
given
{lines}
requirements
    danger high never n0 above 50 V and k for longer than 5 s
    danger less never n0 above 50 V and k for longer than 4 s
"""
    assert kinds(check_program(program(text), SECONDS)) == [Kind.PROVED, Kind.FAILS]


def test_two_stops_that_share_nothing() -> None:
    """Each is found and told by itself; what rests on neither has its verdict."""
    given = "    x lasts at least 6 s\n    x lasts at most 3 s\n    y lasts at least 2 s\n    y lasts at most 1 s\n"
    check = vehicle(given, "never x", "never y", "never z")
    assert [trouble.obstacle for trouble in check.troubles] == [Obstacle.TIME_STOPS] * 2
    assert [set(trouble.givens) for trouble in check.troubles] == [
        {"x lasts at least 6 s", "x lasts at most 3 s"},
        {"y lasts at least 2 s", "y lasts at most 1 s"},
    ]
    assert kinds(check) == [Kind.BLOCKED, Kind.BLOCKED, Kind.FAILS]


def test_it_can_wait_until_just_before() -> None:
    """What was possible earlier is no way on once it was not done: time stops. While it still can be done, it is one."""
    given = "    x lasts at most 3 s\n    x changes only while y\n    {}\n"
    stopped = vehicle(given.format("y lasts at least 9 s\n    not y lasts at least 9 s"), "never x")
    assert kinds(stopped) == [Kind.BLOCKED]
    assert kinds(vehicle(given.format("y lasts at least 9 s"), "never x")) == [Kind.FAILS]


def test_what_hangs_on_chance_is_in_doubt_and_says_so() -> None:
    """Only a relay that drops early enough lets time go on. The lines that meet there are named, and no others."""
    check = vehicle(f"{CHANCE}    z lasts at most 1 s\n", "never x", "never z", coil="one_shot(not x, from 1 s to 2 s)")
    assert check.troubles == ()
    doubted, other = check.verdicts
    assert (doubted.kind, doubted.undecided) == (Kind.NOT_DECIDED, Undecided.TIME_MAY_STOP)
    assert set(doubted.doubtful) == {"not y after k has lasted 1 s", "y changes only while on_delay(y, 1 s)"}
    assert other.kind is Kind.FAILS
    assert other.doubtful == ()


def test_time_that_ran_out_is_told_from_a_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Too many plans are no matter of time; a budget that ran out is, and what was being looked at is named."""
    given = f"    always x\n    {DEMANDING}\n    y changes only while z\n"
    assert kinds(vehicle(given, "never y")) == [Kind.FAILS]
    with monkeypatch.context() as patch:
        patch.setattr(stops, "MOST_PLANS", 0)
        (verdict,) = vehicle(given, "never y").verdicts
        assert (verdict.undecided, verdict.doubtful) == (Undecided.TIME_MAY_STOP, (DEMANDING,))
    with monkeypatch.context() as patch:
        patch.setattr(stops, "PROOF_SHARE", -1.0)
        patch.setattr(stops, "search", _out_of_time)
        (verdict,) = vehicle(given, "never y").verdicts
        assert (verdict.undecided, verdict.doubtful) == (Undecided.TIME_MAY_STOP_BUDGET, (DEMANDING,))


def _out_of_time(*_: object) -> None:
    raise stops.OutOfTime
