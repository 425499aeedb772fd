"""What each fault does, on vehicles small enough to see it: what it breaks, and what it leaves as it is."""

from __future__ import annotations

import pytest

from tests.copper.faults.breaking import broken, table

HEAD = """
vehicle "Small"
world
    battery connected | disconnected
    key     off | run
    tank    0 .. 100 %
    at first battery is connected, key is off
harness
    source plus when battery is connected
    wire feed from plus
"""

LIGHT = "function light always lamp while key is run and battery is connected"

SENSE = f"""{HEAD}
    wire key_wire from plus when key is run
controller "Box" powered by feed
    sense key_on from key_wire live {{more}}
    output lamp when key_on
requirements
    danger   dark  never lamp while key is off for longer than 5 s
    {{light}}
"""

GROUNDED_SENSE = f"""{HEAD}
    wire key_wire to ground when key is run
controller "Box" powered by feed
    sense key_on from key_wire grounded
    output lamp when key_on
requirements
    danger   dark  never lamp while key is off
    function light always lamp while key is run and battery is connected
"""

NUMBER = f"""{HEAD}
controller "Box" powered by feed
    sense water from tank {{more}}
    output lamp when water above 60 %
requirements
    danger   dry   never lamp while tank below 20 %
    function wet   always lamp while tank above 80 % and battery is connected
    danger   twice never lamp while tank below 20 % and key is run
given
    key is off lasts at least 1 s
"""

WIRES = f"""{HEAD}
    wire pump_wire from plus when key is run, fuse 5 A
    wire back      from plus when tank above 50 %
    wire lamp_wire
    diode pump_wire -> lamp_wire
    diode back      -> lamp_wire
    load pump on pump_wire 2 A, fuse 3 A
    load lamp on lamp_wire 2 A
requirements
    function pumps always pump while key is run and battery is connected
    function lit   always lamp while key is run and battery is connected
    danger   idle  never pump_wire while key is off
"""

RELAY = f"""{HEAD}
    wire key_wire from plus when key is run
    relay main coil key_wire
    wire pump_wire from plus when main
requirements
    danger   idle never pump_wire while key is off
    function runs always pump_wire while key is run and battery is connected
"""

OUTPUT = f"""{HEAD}
    wire key_wire from plus when key is run
    wire out_wire
controller "Box" powered by key_wire
    sense k from key_wire live
    output lamp when k feeds out_wire load 2 A, fuse 5 A
    output horn when k fed by feed
requirements
    danger   dark  never lamp while key is off
    danger   mute  never horn while key is off
    function light always lamp while key is run and battery is connected
    function wired always out_wire while key is run and battery is connected
"""

GROUND = f"""{HEAD}
    ground strap
    wire s_wire to strap
    wire g_wire to ground
requirements
    function s always s_wire is grounded
    function g always g_wire is grounded
"""

DIP = f"""{HEAD}
    wire lamp_wire from plus
controller "Box" powered by feed
    output steady when bistable(set not previous(steady))
electrics
    dip plus while key is run for at most 50 ms
requirements
    function parked  always lamp_wire while key is off and battery is connected
    function lit     always lamp_wire while battery is connected
    function again   battery is connected calls for lamp_wire no later than 50 ms, excused by battery is disconnected
"""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            SENSE.format(more="", light=LIGHT),
            {"key_on dead": "... FFF", "key_on live": "FFF ...", "key_on grounded": "... FFF"},
        ),
        (
            SENSE.format(more="filter 100 ms substitute on", light=""),
            {"key_on dead": "...", "key_on live": "FFF", "key_on lost": "FFF"},
        ),
        (GROUNDED_SENSE, {"key_on dead": "... FFF", "key_on live": "... FFF", "key_on grounded": "FFF ..."}),
        (
            NUMBER.format(more="substitute 0 %"),
            {
                "water low": "... FFF ...",
                "water high": "FFF ... FFF",
                "water holding": "FFF FFF FFF",
                "water lost": "... FFF ...",
            },
        ),
        (
            WIRES,
            {
                "plus dead": "FFF FFF ...",
                "pump_wire open": "FFF FFF ...",
                "pump_wire live": "... ... FFF",
                "pump_wire grounded": "... ... ...",
                "back live": "... ... ...",
                "lamp_wire open": "... FFF ...",
                "fuse of pump_wire open": "FFF FFF ...",
                "fuse of pump open": "FFF ... ...",
                "diode pump_wire -> lamp_wire open": "... FFF ...",
                "diode pump_wire -> lamp_wire shorted": "... ... FFF",
                "switch of pump_wire stuck closed": "... ... FFF",
                "switch of pump_wire stuck open": "FFF FFF ...",
            },
        ),
        (RELAY, {"main welded": "FFF ...", "main dead": "... FFF"}),
        (
            OUTPUT,
            {
                "lamp stuck on": "... ... ... ...",  # what feeds the box is dead with the key off
                "lamp stuck off": "... ... FFF FFF",
                "lamp tripped": "-.- -.- -F- -F-",
                "fuse of lamp open": "... ... FFF FFF",
                "out_wire open": "... ... ... FFF",
                "horn stuck on": "... FFF ... ...",
                "key_wire live": "FFF FFF ... ...",
            },
        ),
        (GROUND, {"strap lost": "FFF ...", "ground lost": "... FFF"}),
        (DIP, {"plus dipped": "--F --F --."}),
    ],
)
def test_each_fault_breaks_what_it_must_and_nothing_else(text: str, expected: dict[str, str]) -> None:
    found = broken(text)
    got = table(found)
    for fault, letters in expected.items():
        names = [each.name for each in found.asked if each.name != "no_short_circuit"]
        assert " ".join(got[fault, name] for name in names) == letters, fault


def test_a_short_circuit_is_a_requirement_of_every_vehicle() -> None:
    got = table(broken(WIRES))
    assert got["pump_wire grounded", "no_short_circuit"] == "FFF"
    assert got["pump_wire live", "no_short_circuit"] == "..."
    assert got["pump_wire open", "no_short_circuit"] == "..."
