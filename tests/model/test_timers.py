"""Timers follow IEC 61131-3 in dense time: each case is worked out by hand and played on the interpreter."""

from __future__ import annotations

import pytest

from tests.model.driven import boxed, drive, program, verdict, when_true

# case, rule of q, when x is on, when q is on, until
ALONE = [
    ("A1", "on_delay(x, 5 s)", "[2,4) [6,14)", "[11,14)"),
    ("A2", "on_delay(x, 5 s)", "[0,5)", ""),
    ("A3", "off_delay(x, 5 s)", "[2,4) [7,8)", "[2,13)"),
    ("A4", "off_delay(x, 5 s)", "", ""),
    ("A5", "off_delay(x, 5 s)", "[0,1) [6,7)", "[0,12)"),
    ("A6", "one_shot(x, 4 s)", "[1,2) [3,20)", "[1,5)"),
    ("A7", "one_shot(x, 3 s)", "[0,1) [3,8)", "[0,3)"),
    ("A8", "one_shot(x, 3 s)", "[0,1) [3.5,8)", "[0,3) [3.5,6.5)"),
    ("A9", "blink(x, on 0.5 s, off 0.5 s)", "[1,3.2)", "[1,1.5) [2,2.5) [3,3.2)"),
    ("A10", "blink(x, on 0.5 s, off 0.2 s)", "[0,0.6) [1,1.8)", "[0,0.5) [1,1.5) [1.7,1.8)"),
    ("A12", "on_delay(on_delay(x, 2 s), 3 s)", "[0,6)", "[5,6)"),
    ("A13", "off_delay(on_delay(x, 2 s), 3 s)", "[0,6)", "[2,9)"),
]


@pytest.mark.parametrize(("case", "rule", "x", "q"), ALONE, ids=[row[0] for row in ALONE])
def test_a_timer_alone(case: str, rule: str, x: str, q: str) -> None:
    """The output is on exactly then, and not even for an instant at another time."""
    vehicle = boxed(f"output q when {rule}", more="requirements\n    danger d never q even for an instant")
    timeline = drive(vehicle, "30", x=x)
    assert when_true(timeline, "q") == q
    if not q:
        assert verdict(timeline, "d") == "holds"


@pytest.mark.parametrize(("chosen", "end"), [("9", "10"), ("10", "11"), ("11", "12")])
def test_A11_tolerance(chosen: str, end: str) -> None:
    """A11: with a tolerance any duration in the closed window may be chosen for a run."""
    vehicle = boxed("output q when off_delay(x, 10 s +- 10 %)")
    timeline = drive(vehicle, "30", [("q", "1", chosen)], x="[0,1)")
    assert when_true(timeline, "q") == f"[0,{end})"


def test_A11_tolerance_and_requirement() -> None:
    """A11: the longest run breaks 11.9 s and not 12 s."""
    more = "requirements\n    danger a never q for longer than 12 s\n    danger b never q for longer than 11.9 s"
    vehicle = boxed("output q when off_delay(x, 10 s +- 10 %)", more=more)
    timeline = drive(vehicle, "30", [("q", "1", "11")], x="[0,1)")
    assert (verdict(timeline, "a"), verdict(timeline, "b")) == ("holds", "after 11.9")


def test_A15_one_shot_behind_a_relay() -> None:
    """A15: x rises in a repeat of the moment in which q ends, one reaction late, and starts it anew without a gap."""
    vehicle = program("""
vehicle "Test"
world
    k contact
harness
    source plus
    wire feed from plus
    relay late coil k
    wire x_wire from plus when late
controller "Box" powered by feed
    sense x from x_wire live
    output q when one_shot(x, 3 s)
""")
    timeline = drive(vehicle, "30", k="[0,1) [3,4)")
    assert when_true(timeline, "q") == "[0,6)"


# Timers, bistables and edges as published; the traces were worked out by hand from the text.
STANDARD = (
    "IEC 61131-3 standard function blocks, read in beremiz/matiec lib/timer.txt, bistable.txt, edge_detection.txt"
)
PUBLISHED = [
    ("4.01", STANDARD, "on_delay(x, 5 s)", "[2,4) [6,14)", "[11,14)"),
    ("4.02", STANDARD, "on_delay(x, 5 s)", "[0,5)", ""),  # our convention: x falls at the moment it would come
    ("4.02-shorter", STANDARD, "on_delay(x, 5 s)", "[0,4.999)", ""),
    ("4.03", STANDARD, "off_delay(x, 5 s)", "[2,4) [7,8)", "[2,13)"),
    ("4.04", STANDARD, "off_delay(x, 5 s)", "", ""),
    ("4.10", STANDARD, "off_delay(rises(x), 1 s)", "[0,5)", "[0,1)"),  # x true at first: a pulse in the first reaction
]


@pytest.mark.parametrize(("entry", "source", "rule", "x", "q"), PUBLISHED, ids=[row[0] for row in PUBLISHED])
def test_published_timers(entry: str, source: str, rule: str, x: str, q: str) -> None:
    """The answers of the published source."""
    assert when_true(drive(boxed(f"output q when {rule}"), "30", x=x), "q") == q


def test_4_13_published_blinker() -> None:
    """4.13 (standard application note, from memory): two on-delays, the first low for a and high for b, period a + b.

    The second is true for an instant only, in which it resets both.
    """
    vehicle = boxed("rule t1 = on_delay(x and not previous(t2), 2 s)", "rule t2 = on_delay(t1, 3 s)")
    timeline = drive(vehicle, "14", x="[0,20)")
    assert when_true(timeline, "t1") == "[2,5) [7,10) [12,..)"
    assert when_true(timeline, "t2") == ""
