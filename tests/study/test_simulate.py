"""Scenarios as played: timer runs, expectations, and what is said beside them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.lang.program import Program
from logiccheck.model.interpreter import Impossible
from logiccheck.study.simulate import Simulation, TimerRun, simulate
from tests.model.driven import SECOND, program

VAN = """
vehicle "Test"
world
    door "Driver's door" closed | open
    engine 0 .. 7000 rpm
    at first door is closed
harness
    source plus
    wire wake from plus when door is open
    relay hold coil off_delay(wake, 240 s +- 10 s)
    wire feed from plus when hold
controller "Box" powered by feed
    sense revs from engine
    rule prime = one_shot(true, 3 s)
    output pump "Fuel pump" when prime or revs above 300 rpm
given
    door is open lasts at least 5 s
{scenario}
"""


def played(*lines: str) -> Simulation:
    vehicle = van(*lines)
    return simulate(vehicle, vehicle.scenarios[0])


def van(*lines: str) -> Program:
    return program(VAN.format(scenario="\n    ".join(["scenario day", *lines])))


def test_timer_runs() -> None:
    """A run ends because its time is over, because it was broken off, or it still runs."""
    found = played("at 1 s door is open", "at 7 s door is closed", "at 9 s door is open", "at 20 s door is closed")
    assert found.timers == (
        TimerRun("prime", 1 * SECOND, 4 * SECOND, True),
        TimerRun("hold", 7 * SECOND, 9 * SECOND, False),
        TimerRun("hold", 20 * SECOND, None, False),
    )


def test_expectations() -> None:
    """Each is judged on settled values, at its time or at every instant from one time to another."""
    found = played(
        "at 1 s door is open",
        "at 1 s expect pump, wake",
        "at 4 s expect pump",
        "from 1 s to 3.9 s expect pump",
        "from 1 s to 4 s expect pump",
        "at 6 s expect not pump",
    )
    assert [each.held for each in found.expectations] == [True, True, False, True, False, True]
    assert found.held is False
    assert played("at 1 s expect not pump").held is True


def test_a_scenario_that_expects_nothing_is_no_success() -> None:
    """Neither held nor failed."""
    assert played("at 1 s door is open", "until 5 s").held is None


def test_a_chosen_run() -> None:
    """A run that the scenario gives a duration lasts that long; one that does not start then is told."""
    lines = ["at 1 s door is open", "at 7 s door is closed", "at 7 s hold lasts 245 s", "at 251.9 s expect powered"]
    assert played(*lines, "at 252 s expect not powered").held is True
    late = played("at 1 s door is open", "at 7 s door is closed", "at 8 s hold lasts 245 s")
    assert [(run.key, run.start) for run in late.unused] == [("hold", 8 * SECOND)]


def test_a_run_out_of_its_tolerance_cannot_be_played() -> None:
    """Whoever writes it is told by the front end, or by the interpreter at the latest."""
    vehicle = van("at 1 s door is open", "at 7 s door is closed", "at 7 s hold lasts 245 s")
    (day,) = vehicle.scenarios
    longer = replace(day, timers=(replace(day.timers[0], duration=251 * SECOND),), end=300 * SECOND)
    with pytest.raises(Impossible, match="hold cannot last"):
        simulate(vehicle, longer)


def test_assumptions_not_met_are_warnings() -> None:
    """A door that closes too early breaks what is given, and the expectations are judged all the same."""
    found = played("at 1 s door is open", "at 2 s door is closed", "at 3 s expect pump")
    assert [(each.instant.time, each.what) for each in found.warnings] == [(2 * SECOND, van().givens[0])]
    assert found.held is True
    assert played("at first door is open", "at 2 s expect pump").warnings[0].what == van().at_first[0]


def test_a_scenario_that_never_settles_ends_there() -> None:
    """What is expected later, or at that very instant, is not held."""
    vehicle = program("""
vehicle "Test"
world
    x contact
harness
    relay k1 coil x and not k2
    relay k2 coil x and not k1
scenario race
    at 1 s expect not k1
    at 2 s x is on
    at 2 s expect not k1
    at 3 s expect not k1
""")
    found = simulate(vehicle, vehicle.scenarios[0])
    assert not found.timeline.settles
    assert found.timeline.end == 2 * SECOND
    assert [each.held for each in found.expectations] == [True, False, False]


def test_a_waking_is_told() -> None:
    """The box lost its power for an instant, which no settled value shows."""
    vehicle = program("""
vehicle "Test"
world
    main_on contact
harness
    source plus
    source main when main_on
    wire coil_wire from main
    relay k coil coil_wire
    wire feed from main when k, otherwise from plus
controller "Box" powered by feed
    rule prime = one_shot(true, 3 s)
scenario change_over
    at first main_on
    at 10 s not main_on
    at 11 s expect prime, powered
""")
    found = simulate(vehicle, vehicle.scenarios[0])
    assert found.wakings == (10 * SECOND,)
    assert found.held is True
