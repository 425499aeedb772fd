"""What the box and the relays remember when power comes and goes, played on the interpreter."""

from __future__ import annotations

import pytest

from logiccheck.lang.program import Program
from tests.model.driven import drive, program, verdict, when_true

HELD = """
vehicle "Test"
world
    door closed | open
    battery dead | full
    at first battery is full
harness
    source plus when battery is full
    wire wake from plus when door is open
    relay hold coil off_delay({coil}, 240 s) {supply}
    wire feed from plus when hold
controller "Box" powered by feed
    rule prime = one_shot(true, 3 s)
"""


def keyed(*rules: str, more: str = "", after: str = "") -> Program:
    """A box fed through a key, with senses a and b; both wires do not depend on the key."""
    lines = "\n".join(f"    {rule}" for rule in rules)
    return program(f"""
vehicle "Test"
world
    key contact
    ca contact
    cb contact
harness
    source plus
    wire feed from plus when key
    wire a_wire from plus when ca
    wire b_wire from plus when cb
controller "Box" powered by feed {after}
    sense a from a_wire live
    sense b from b_wire live
{lines}
{more}
""")


def test_C1_a_box_without_power_is_off() -> None:
    """C1."""
    assert when_true(drive(keyed("output q when a"), "9", key="[0,5)", ca="[0,..)"), "q") == "[0,5)"


ON_AGAIN = [
    ("C2", "bistable(set a, reset b)", "[0,1)", "[0,2) [3,9)", "[0,2)"),
    ("C2-retained", "bistable(set a, reset b, retained)", "[0,1)", "[0,2) [3,9)", "[0,2) [3,9)"),
    ("C3", "one_shot(a, 3 s)", "[0,..)", "[0,1) [2,30)", "[0,1) [2,5)"),
    ("C4", "on_delay(a, 5 s)", "[0,..)", "[0,4) [4.5,30)", "[9.5,30)"),
    ("blink", "blink(a, on 2 s, off 2 s)", "[0,..)", "[0,3) [3.5,7)", "[0,2) [3.5,5.5)"),
    ("impulse", "impulse_relay(a)", "[0,..)", "[0,1) [2,30)", "[0,1) [2,30)"),
    ("impulse-retained", "impulse_relay(a, retained)", "[0,..)", "[0,1) [2,30)", "[0,1)"),  # a is a rise at each waking
    ("falls", "off_delay(falls(a), 1 s)", "[0,2)", "[0,1) [3,9)", ""),  # what fell in its sleep is not seen
]


@pytest.mark.parametrize(("case", "rule", "a", "key", "q"), ON_AGAIN, ids=[row[0] for row in ON_AGAIN])
def test_memory_is_lost_with_the_power(case: str, rule: str, a: str, key: str, q: str) -> None:
    """Only what is retained outlives it, and an operand that is already true at waking is a rise."""
    assert when_true(drive(keyed(f"output q when {rule}"), "30", key=key, ca=a), "q") == q


def test_C5_C10_rules_of_a_sleeping_box_read_false() -> None:
    """C5: also under `not`, inside the box; C10: a requirement that negates such a rule sees it false."""
    more = "requirements\n    danger d never r while not key\n    danger e never not r for longer than 1 s"
    timeline = drive(keyed("rule r = not a", more=more), "20", key="[0,5)")
    assert when_true(timeline, "r") == "[0,5)"
    assert (verdict(timeline, "d"), verdict(timeline, "e")) == ("holds", "after 6")


def test_F15_a_requirement_remembers_on_its_own() -> None:
    """F15: a timer in a requirement counts on while the box sleeps."""
    more = "requirements\n    danger d never on_delay(a_wire, 5 s) while cb"
    timeline = drive(keyed("output q when a", more=more), "9", key="[0,1)", ca="[0,6)", cb="[5,6)")
    assert verdict(timeline, "d") == "at 5"


HOLD = [
    ("C6", "[0,2)", "[0,242)", "[0,3)"),
    ("C7a", "[0,2) [242,243)", "[0,483)", "[0,3)"),
    ("C7b", "[0,2) [242.1,243)", "[0,242) [242.1,483)", "[0,3) [242.1,245.1)"),
    ("C8", "[0,..)", "[0,..)", "[0,3)"),
]


@pytest.mark.parametrize(("case", "door", "feed", "prime"), HOLD, ids=[row[0] for row in HOLD])
def test_a_relay_holds_the_feed(case: str, door: str, feed: str, prime: str) -> None:
    """The feed lives as long as the off-delay relay, and every waking primes."""
    vehicle = program(HELD.format(coil="wake", supply=""))
    timeline = drive(vehicle, "600", door=door, battery="[0,..)")
    assert (when_true(timeline, "feed"), when_true(timeline, "prime")) == (feed, prime)
    assert sum(each.moment.wakings for each in timeline.played) == 0


def test_C9_a_relay_forgets_without_supply() -> None:
    """C9: the relay is dead with its supply, and does not come back by itself."""
    vehicle = program(HELD.format(coil="wake", supply="supply plus"))
    timeline = drive(vehicle, "600", door="[0,2)", battery="[0,10) [11,..)")
    assert when_true(timeline, "feed") == "[0,10)"


def test_C11_an_instant_without_power_is_a_waking() -> None:
    """C11: the relay changes over one reaction after its supply died; the box has forgotten all, and it is told."""
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
""")
    timeline = drive(vehicle, "30", main_on="[0,10)")
    assert when_true(timeline, "feed") == "[0,..)"
    assert when_true(timeline, "prime") == "[0,3) [10,13)"
    assert [each.time for each in timeline.played if each.moment.wakings] == [10_000_000]


def test_C12_start_up_delay() -> None:
    """C12: the feed must be live that long; an interruption starts it afresh."""
    timeline = drive(keyed("output q when a", after="after 0.3 s"), "9", key="[0,0.1) [1,3) [3.2,9)", ca="[0,..)")
    assert when_true(timeline, "powered") == when_true(timeline, "q") == "[1.3,3) [3.5,9)"


def test_C13_filter_time() -> None:
    """C13: a sense follows its input once that has been different for the filter time."""
    vehicle = program("""
vehicle "Test"
world
    x contact
    rev 0 .. 100 rpm
harness
    source plus
    wire feed from plus
    wire x_wire from plus when x
controller "Box" powered by feed
    sense s from x_wire live filter 0.1 s
    sense n from rev filter 0.2 s
    rule fast = n above 50 rpm
""")
    timeline = drive(vehicle, "9", x="[1,1.05) [2,3)", rev="[0,..)")
    assert when_true(timeline, "s") == "[2.1,3.1)"
    assert when_true(timeline, "fast") == ""
