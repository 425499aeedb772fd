"""Wires live and grounded, diodes, sources, relays and true outputs, played on the interpreter."""

from __future__ import annotations

import pytest

from logiccheck.lang.program import And, Never, Program, Signal, SignalKind
from logiccheck.model.judge import violated
from logiccheck.model.observed import signal
from tests.model.driven import drive, program, shown, told, verdict, when_true

SNEAK = """
vehicle "Test"
world
    key contact
    door contact
harness
    source plus
    wire key_wire from plus when key
    wire door_wire from plus when door
    wire feed from plus
    wire wake
    {join}
    diode door_wire -> wake
controller "Box" powered by feed
    sense key_on from key_wire live
"""


@pytest.mark.parametrize(
    ("join", "key_wire"),
    [("diode key_wire -> wake", ""), ("join key_wire with wake", "[1,2)")],
    ids=["D1", "D2"],
)
def test_a_sneak_path(join: str, key_wire: str) -> None:
    """D1, D2: a diode keeps the key wire dead; a plain wire in its place feeds it from the door."""
    timeline = drive(program(SNEAK.format(join=join)), "9", door="[1,2)")
    assert when_true(timeline, "wake") == "[1,2)"
    assert when_true(timeline, "key_wire") == when_true(timeline, "key_on") == key_wire


KEEP = """
vehicle "Test"
world
    key contact
harness
    source plus
    wire key_wire from plus when key
    wire keep_wire
    wire feed
    diode key_wire -> feed
    diode keep_wire -> feed
controller "Box" powered by feed
    sense key_on from key_wire live
    output keep when key_on or off_delay(key_on, 120 s) feeds keep_wire
"""


@pytest.mark.parametrize(
    ("key", "powered"),
    [("[0,10)", "[0,130)"), ("[0,10) [130,..)", "[0,..)")],
    ids=["D3", "D4"],
)
def test_a_box_that_feeds_itself(key: str, powered: str) -> None:
    """The box keeps its own feed alive until it has finished, and the key takes over without a gap."""
    timeline = drive(program(KEEP), "200", key=key)
    assert when_true(timeline, "powered") == when_true(timeline, "keep") == powered
    assert sum(each.moment.wakings for each in timeline.played) == 0


def test_D6_a_contact_follows_its_coil_one_reaction_later() -> None:
    """D6: when settled the lamp follows the switch; for an instant it is still dead, or still live."""
    vehicle = program("""
vehicle "Test"
world
    switch contact
harness
    source plus
    relay k1 coil switch
    wire lamp_wire from plus when k1
requirements
    danger d never lamp_wire while not switch
    danger e never lamp_wire while not switch even for an instant
    danger f never not lamp_wire while switch even for an instant
""")
    timeline = drive(vehicle, "9", switch="[1,2)")
    assert when_true(timeline, "lamp_wire") == "[1,2)"
    assert [verdict(timeline, each) for each in "def"] == ["holds", "at 2", "at 1"]


@pytest.mark.parametrize(("a", "b", "short"), [("[1,3)", "[2,4)", "at 2"), ("[1,3)", "[3,4)", "holds")])
def test_D7_a_short(a: str, b: str, short: str) -> None:
    """D7: a wire both live and grounded."""
    vehicle = program("""
vehicle "Test"
world
    a contact
    b contact
harness
    source plus
    wire w from plus when a, to ground when b
""")
    timeline = drive(vehicle, "9", a=a, b=b)
    both = And((Signal(SignalKind.LIVE, "w"), Signal(SignalKind.GROUNDED, "w")))
    assert told(violated(timeline, Never(both, None, always=False, instant=False))) == short


def harness(*lines: str) -> Program:
    world = "\n".join(f"    {name} contact" for name in "abc")
    body = "\n".join(f"    {line}" for line in lines)
    return program(f'vehicle "Test"\nworld\n{world}\nharness\n    source plus\n{body}\n')


def test_D8_diodes_in_a_circle() -> None:
    """D8: whichever wire is fed, all are live; with none fed none is (the least solution)."""
    vehicle = harness(
        "wire w1 from plus when a",
        "wire w2",
        "wire w3 from plus when c",
        "diode w1 -> w2",
        "diode w2 -> w3",
        "diode w3 -> w1",
    )
    timeline = drive(vehicle, "9", a="[1,2)", c="[3,4)")
    assert [when_true(timeline, wire) for wire in ("w1", "w2", "w3")] == ["[1,2) [3,4)"] * 3


def test_D9_diodes_against_each_other() -> None:
    """D9: what arrives at the common cathode goes no further."""
    vehicle = harness("wire w1 from plus when a", "wire w2", "wire w3", "diode w1 -> w2", "diode w3 -> w2")
    timeline = drive(vehicle, "9", a="[1,2)")
    assert [when_true(timeline, wire) for wire in ("w1", "w2", "w3")] == ["[1,2)", "[1,2)", ""]


def test_D10_ground_through_a_diode() -> None:
    """D10: ground passes against the diode, from its cathode to its anode, and not the other way."""
    vehicle = harness("wire w1 from plus when c, to ground when a", "wire w2 to ground when b", "diode w1 -> w2")
    timeline = drive(vehicle, "9", a="[1,2)", b="[3,4)", c="[5,6)")
    grounded = [shown(signal(timeline, Signal(SignalKind.GROUNDED, wire))) for wire in ("w1", "w2")]
    assert grounded == ["[1,2) [3,4)", "[3,4)"]
    assert when_true(timeline, "w2") == "[5,6)"


def test_D11_a_source_is_an_end() -> None:
    """D11: what arrives at a source goes no further, and does not make it live."""
    vehicle = harness(
        "source house when a",
        "source starter when b",
        "wire bus from starter",
        "wire behind from house",
        "join house with bus when c",
    )
    timeline = drive(vehicle, "9", b="[1,9)", c="[0,9)")
    assert [when_true(timeline, each) for each in ("bus", "house", "behind")] == ["[1,9)", "", ""]


def test_an_output_is_true_only_while_its_feed_is_live() -> None:
    """A true output is: command, box powered, and the wire that feeds it live; it lets nothing back in."""
    vehicle = program("""
vehicle "Test"
world
    a contact
    b contact
harness
    source plus
    wire feed from plus
    wire supply_wire from plus when b
    wire out_wire
    wire a_wire from plus when a
controller "Box" powered by feed
    sense a_on from a_wire live
    output q when a_on fed by supply_wire feeds out_wire
    rule command = q
""")
    timeline = drive(vehicle, "9", a="[1,4)", b="[2,3) [5,6)")
    assert when_true(timeline, "command") == "[1,4)"
    assert when_true(timeline, "q") == when_true(timeline, "out_wire") == "[2,3)"
    assert when_true(timeline, "supply_wire") == "[2,3) [5,6)"


def test_a_grounded_sense() -> None:
    """An old door switch grounds its wire: the sense is true when the wire is grounded, whatever feeds it."""
    vehicle = program("""
vehicle "Test"
world
    a contact
    b contact
harness
    source plus
    wire feed from plus
    wire w from plus when a, to ground when b
controller "Box" powered by feed
    sense live_on from w live
    sense closed from w grounded
""")
    timeline = drive(vehicle, "9", a="[1,3)", b="[2,4)")
    assert (when_true(timeline, "live_on"), when_true(timeline, "closed")) == ("[1,3)", "[2,4)")
