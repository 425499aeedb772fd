"""Every part of a vehicle's copper, and every way in which it fails, is a fault of its own."""

from __future__ import annotations

from pathlib import Path

from logiccheck.copper.faults.parts import EACH_WHEN, Mode, When, faults_of
from tests.oracle.loading import loaded

EXAMPLES = Path(__file__).parents[3] / "examples"

SMALL = """
vehicle "Small"
world
    battery connected | disconnected
    key     off | on
    tank    0 .. 100 %
harness
    source plus when battery is connected
    ground strap
    wire feed from plus
    wire key_wire from plus when key is on, to strap when key is off
    wire lamp_wire
    wire spare
    join key_wire with spare when key is on
    diode key_wire -> lamp_wire
    diode key_wire -> lamp_wire
    relay hold coil off_delay(key_wire, 3 s)
    load lamp on lamp_wire 2 A, fuse 5 A
controller "Box" powered by feed
    sense key_on from key_wire live substitute off
    sense water from tank
    output pump when key_on load 3 A, fuse 5 A
requirements
    function works possible pump
"""

FIRST_STEPS = """
plus dead
key_wire: open, live, grounded
switch of key_wire: stuck closed, stuck open
start_wire: open, live, grounded
switch of start_wire: stuck closed, stuck open
door_wire: open, live, grounded
switch of door_wire: stuck closed, stuck open
crash_wire: open, live, grounded
switch of crash_wire: stuck closed, stuck open
wake: open, live, grounded
diode key_wire -> wake: open, shorted
diode door_wire -> wake: open, shorted
hold: welded, dead
box_supply: open, live, grounded
fuse of box_supply open
key_on: dead, live, grounded
cranking: dead, live, grounded
crashed: dead, live, grounded
revs: low, high, holding
fuse of fuel_pump open
fuel_pump: stuck on, stuck off, tripped
fuse of ignition open
ignition: stuck on, stuck off, tripped
plus dipped
ground lost
"""


def listed(text: str) -> list[str]:
    """The ids of a list in which the modes of one part stand on one line."""
    found = []
    for line in text.strip().splitlines():
        part, colon, modes = line.partition(": ")
        found += [f"{part} {mode}" for mode in modes.split(", ")] if colon else [line]
    return found


def test_all_parts_of_an_example_with_all_their_modes() -> None:
    program = loaded((EXAMPLES / "first-steps" / "van.circuit").read_text(encoding="utf-8"))
    assert [fault.id for fault in faults_of(program)] == listed(FIRST_STEPS)


def test_parts_that_have_no_name_are_told_apart() -> None:
    ids = [fault.id for fault in faults_of(loaded(SMALL))]
    assert len(ids) == len(set(ids))
    for known in (
        "switch of key_wire stuck open",
        "switch of key_wire, number 2 stuck open",
        "switch between key_wire and spare stuck closed",
        "diode key_wire -> lamp_wire shorted",
        "diode key_wire -> lamp_wire, number 2 shorted",
        "strap lost",
        "key_on lost",
        "fuse of lamp open",
        "fuse of pump open",
    ):
        assert known in ids
    assert "ground lost" not in ids  # nothing goes to it
    assert "water lost" not in ids  # it has no substitute
    assert "fuse of feed open" not in ids


def test_what_comes_back_by_itself_is_asked_in_its_own_manner_alone() -> None:
    found = {fault.mode: fault.whens for fault in faults_of(loaded(SMALL))}
    assert found.pop(Mode.TRIPPED) == (When.LATER,)
    assert set(found.values()) == {EACH_WHEN}
