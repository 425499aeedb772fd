"""What a scenario expects only looks on: with it and without it, verdicts and stories are the same."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.program import Program
from logiccheck.study.simulate import simulate
from tests.oracle.loading import loaded

VEHICLE = """
vehicle "V"
world
    engine 0 .. 7000 rpm
    x contact
    at first engine is 0 rpm, x is off
harness
    source plus
controller "Box" powered by plus
    sense revs from engine FILTER
    output pump when revs above 3000 rpm
given
    engine without jumps
requirements
    danger slow never engine above 5000 rpm
    danger fuel never pump and x
    danger held always pump while engine is 7000 rpm
"""
SCENARIO = """
scenario a_drive
    at first engine is 0 rpm
    at 10 s  engine is 6000 rpm
    at 20 s  expect revs above 1000 rpm, engine above 2000 rpm, engine at least 6000 rpm, revs above 5999 rpm, previous(x) or not x
"""


def program(filter_time: str, rest: str) -> Program:
    return loaded(VEHICLE.replace("FILTER", filter_time) + rest)


@pytest.mark.parametrize("filter_time", ["", "filter 100 ms"])
def test_a_scenario_adds_no_moment(filter_time: str) -> None:
    """Its constants are no places that a number passes through, its comparisons of a filtered sense no timers."""
    alone, beside = check_program(program(filter_time, "")), check_program(program(filter_time, SCENARIO))
    assert [verdict.kind for verdict in alone.verdicts][:2] == [Kind.FAILS, Kind.FAILS]
    assert [(v.kind, v.story) for v in alone.verdicts] == [(v.kind, v.story) for v in beside.verdicts]
    assert [number.bounds for number in program("", SCENARIO).numbers] == [
        number.bounds for number in program("", "").numbers
    ]


@pytest.mark.parametrize("filter_time", ["", "filter 100 ms"])
def test_a_scenario_still_sees_what_it_expects(filter_time: str) -> None:
    """Also constants that nothing else compares with."""
    made = program(filter_time, SCENARIO)
    (scenario,) = made.scenarios
    simulation = simulate(made, scenario)
    assert [judged.held for judged in simulation.expectations] == [True] * 5
