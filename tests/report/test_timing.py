"""Which bars a played scenario has, and what each of them says."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.report.bars import Bar, Bars, Stretch
from logiccheck.report.charts import chart
from logiccheck.report.timing import bars
from logiccheck.study.simulate import simulate
from tests.model.driven import program

VEHICLE = """
vehicle "Test"
world
    door  "Driver's door" closed | open
    brake contact
    key   off | run
    crash closed | tripped
    engine 0 .. 7000 rpm
    at first door is closed
harness
    source plus
    wire door_wire from plus when door is open
    wire crash_wire to ground when crash is tripped
    wire brake_wire from plus when brake
    relay hold coil off_delay(door_wire, 10 s)
    wire feed from plus when hold
    wire lamp_wire from plus when key is run
    load lamp on lamp_wire 1 A
controller "Box" powered by feed
    sense revs from engine
    output pump "Fuel pump" when one_shot(true, 3 s)
scenario day
    at 1 s  door is open
    at 1 s  expect pump
    at 2 s  door is closed, brake is on, crash is tripped
    at 3 s  engine is 900 rpm
    at 5 s  door is open
    at 5 s  expect not lamp
    at 6 s  door is closed
    until 17 s
"""


def made(everything: bool = False, expected: tuple[str, ...] = ()) -> Bars:
    vehicle = program(VEHICLE)
    played = simulate(vehicle, vehicle.scenarios[0])
    return bars(chart(vehicle, played.timeline), played.timers, expected, everything)


def bar(found: Bars, place: str, name: str) -> Bar:
    return next(bar for group in found.groups if group.title == place for bar in group.bars if bar.name == name)


def names(found: Bars) -> list[str]:
    return [bar.name for group in found.groups for bar in group.bars]


def test_what_changes_and_what_is_expected() -> None:
    """Hands, copper, box, timers; what never changes only if it is expected, or if everything is wanted."""
    assert names(made()) == [
        *("door", "brake", "crash", "engine"),
        *("door_wire", "crash_wire", "brake_wire", "feed", "hold"),
        *("powered", "revs", "pump"),
        *("hold", "pump"),
    ]
    assert set(names(made(expected=("lamp_wire",)))) - set(names(made())) == {"lamp_wire"}
    assert set(names(made(everything=True))) - set(names(made())) == {"key", "plus", "lamp_wire", "lamp"}


def test_what_is_on_or_off_and_what_is_told() -> None:
    """Contacts, wires that are live or dead, relays and outputs are on or off; all else is told in words."""
    found = made()
    assert found.titles == ("at first", "1 s", "2 s", "3 s", "4 s", "5 s", "6 s", "16 s")
    assert (found.end, found.end_title) == (Fraction(17_000_000), "17 s")
    assert bar(found, "hands", "brake").stretches == (Stretch(0, "", False), Stretch(2, "", True))
    assert bar(found, "hands", "door").stretches[:2] == (Stretch(0, "closed", None), Stretch(1, "open", None))
    assert bar(found, "copper", "crash_wire").stretches == (Stretch(0, "", False), Stretch(2, "grounded", None))
    assert bar(found, "copper", "hold").stretches == (
        Stretch(0, "", False),
        Stretch(1, "", True),
        Stretch(7, "", False),
    )
    assert bar(found, "box", "revs").stretches == (
        Stretch(0, "nothing", None),
        Stretch(1, "0 rpm", None),
        Stretch(3, "900 rpm", None),
        Stretch(7, "nothing", None),
    )
    assert bar(found, "hands", "door").label == "Driver's door"


def test_timers_run_on_until_they_are_over_or_broken_off() -> None:
    """A run whose time was over says how long it was; one that was broken off says nothing; one begins anew at once."""
    found = made()
    assert bar(found, "timers", "pump").stretches == (
        Stretch(0, "", False),
        Stretch(1, "3 s", True),
        Stretch(4, "", False),
    )
    assert bar(found, "timers", "hold").stretches == (
        Stretch(0, "", False),
        Stretch(2, "", True),
        Stretch(5, "", False),
        Stretch(6, "10 s", True),
        Stretch(7, "", False),
    )
