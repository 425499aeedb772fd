"""The settled situation of a played vehicle at an instant."""

from __future__ import annotations

from logiccheck.cli.reader import DiskReader
from logiccheck.explain.situation import Situation, signals
from logiccheck.lang.load import load
from logiccheck.model.play import play_scenario
from tests.calling import EXAMPLES

VAN = (EXAMPLES / "first-steps" / "van.circuit").as_posix()


def test_what_was_settled_last_still_holds() -> None:
    """Between two moments the values of the earlier one are read; at a moment its own."""
    program = load(VAN, DiskReader(VAN)).program
    assert program is not None
    timeline = play_scenario(program, program.scenarios[0])
    pump = signals(program)["fuel_pump"].on
    on = [Situation(timeline, time * 500_000).values.holds(pump) for time in (0, 19, 20, 25, 26, 44)]
    assert on == [False, False, True, True, False, True]
