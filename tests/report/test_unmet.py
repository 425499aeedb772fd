"""Why expectations are not met, in whole sentences, with the lines that are shown."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text
from logiccheck.report.played import play_report
from logiccheck.report.report import Cause
from logiccheck.study.simulate import simulate

VEHICLE = """\
vehicle "Test"
world
    door  closed | open
    key   off | run
harness
    source plus
    wire door_wire from plus when door is open
    wire key_wire  from plus when key is run
    relay hold coil off_delay(door_wire, 10 s)
    wire feed from plus when hold
    load lamp on key_wire 1 A
controller "Box" powered by feed
    sense key_on from key_wire live
    rule prime = one_shot(true, 3 s)
    output pump "Fuel pump" when prime or key_on
    output never_on when false
scenario day
    at 1 s  door is open
    {expectation}
    until 30 s
"""


def causes(expectation: str) -> tuple[Cause, ...]:
    """Of the only expectation, which is not met."""
    loaded = load_text(VEHICLE.format(expectation=expectation))
    assert loaded.program is not None, loaded.diagnostics
    report = play_report(loaded.program, loaded.files, [simulate(loaded.program, loaded.program.scenarios[0])])
    (part,) = report.played[0].expectations
    assert not part.met
    return part.causes


@pytest.mark.parametrize(
    ("expectation", "sentences", "lines"),
    [
        (
            "at 5 s expect pump",
            ["pump is off because prime is off (ended at 4 s) and key_on is off."],
            [14, 15],
        ),
        ("at 2 s expect not pump", ["pump is on because prime is on (its time runs since 1 s, 2 s left)."], [14, 15]),
        ("at 5 s expect lamp", ["lamp is off because key is off."], [8]),
        ("at 5 s expect not key_wire xor true", ["key_wire is not live because key is off."], [8]),
        ("at 5 s expect not hold", ["hold is closed because off_delay(door_wire, 10 s) is on (its input is on)."], [9]),
        ("at 0 s expect pump", ["pump is off because the box has no power."], []),
        (
            "from 2 s to 9 s expect powered and (lamp or pump)",
            [
                "lamp is off because key is off.",
                "pump is off because prime is off (ended at 4 s) and key_on is off.",
            ],
            [8, 14, 15],
        ),
        ("at 5 s expect never_on", ["never_on is off, and nothing that is written can make it otherwise."], []),
        ("at 5 s expect door is closed", [], []),
        ("at 5 s expect on_delay(pump, 20 s)", [], []),
    ],
)
def test_why_not(expectation: str, sentences: list[str], lines: list[int]) -> None:
    """The signals that decide, each with the fewest facts; nothing of what only hands do."""
    found = causes(expectation)
    assert [cause.sentence for cause in found] == sentences
    assert [line.number for cause in found if cause.excerpt for line in cause.excerpt.lines] == lines
