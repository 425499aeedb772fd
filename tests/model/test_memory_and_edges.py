"""Bistables, impulse relays, edges, thresholds and `previous`, played on the interpreter."""

from __future__ import annotations

from itertools import product

import pytest

from logiccheck.lang.program import WorldSet
from logiccheck.model.play import first_world, play
from tests.model.driven import SECOND, boxed, drive, named, program, verdict, when_true

RULES = [
    ("B1", "bistable(set a, reset b)", "[1,3)", "[2,4)", "[1,2)"),
    ("B2", "bistable(set a, reset b, set wins)", "[1,3)", "[2,4)", "[1,3)"),
    ("B3", "bistable(set rises(a), reset b)", "[0,9)", "", "[0,..)"),
    ("B4", "bistable(set falls(a), reset b)", "", "", ""),
    ("B4-rises-not", "bistable(set rises(not a), reset b)", "", "", "[0,..)"),
    ("B6", "impulse_relay(a)", "[1,1.5) [2,2.5) [3,3.5)", "", "[1,2) [3,..)"),
    ("B6-reset", "impulse_relay(a, reset b)", "[1,1.5) [3,3.5)", "[2,3.5)", "[1,2)"),
    ("falls", "off_delay(falls(a), 1 s)", "[0,1) [4,5)", "", "[1,2) [5,6)"),
]


@pytest.mark.parametrize(("case", "rule", "a", "b", "q"), RULES, ids=[row[0] for row in RULES])
def test_stored_bits(case: str, rule: str, a: str, b: str, q: str) -> None:
    """The output is on exactly then."""
    timeline = drive(boxed(f"output q when {rule}", inputs=("a", "b")), "10", a=a, b=b)
    assert when_true(timeline, "q") == q


def test_B5_a_rule_that_is_true_for_an_instant() -> None:
    """B5: settled values never show it, `even for an instant` does."""
    more = "requirements\n    danger d never q\n    danger e never q even for an instant"
    timeline = drive(boxed("output q when x and not previous(x)", more=more), "10", x="[2,9)")
    assert (verdict(timeline, "d"), verdict(timeline, "e")) == ("holds", "at 2")


THRESHOLDS = [
    ("B7", [0, 350, 450, 350, 250, 350], [0, 0, 1, 1, 0, 0]),
    ("B8", [400, 401, 300, 299], [0, 1, 1, 0]),
]


@pytest.mark.parametrize(("case", "speeds", "expected"), THRESHOLDS, ids=[row[0] for row in THRESHOLDS])
def test_two_thresholds(case: str, speeds: list[int], expected: list[int]) -> None:
    """Above the one until below the other, both strict."""
    vehicle = program("""
vehicle "Test"
world
    engine 0 .. 7000 rpm
harness
    source plus
    wire feed from plus
controller "Box" powered by feed
    sense revs from engine
    rule running = revs above 400 rpm until below 300 rpm
""")
    changes = [WorldSet(i * SECOND, "engine", speed) for i, speed in enumerate(speeds)]
    timeline = play(vehicle, changes, [], 9 * SECOND, first_world(vehicle, {}, ()))
    assert [int(each.moment.settled.holds(named(vehicle, "running"))) for each in timeline.played] == expected


TABLE = [(s, r, q, (1 if s else 0 if r else q), (0 if r else 1 if s else q)) for s, r, q in product((0, 1), repeat=3)]


@pytest.mark.parametrize(("s", "r", "q", "set_dominant", "reset_dominant"), TABLE)
def test_4_09_published_truth_table(s: int, r: int, q: int, set_dominant: int, reset_dominant: int) -> None:
    """4.09 (IEC 61131-3, as in matiec lib/bistable.txt): the eight rows of SR and RS; two of them differ."""
    vehicle = boxed(
        "rule sr = bistable(set s, reset r, set wins)", "rule rs = bistable(set s, reset r)", inputs=("s", "r")
    )
    before = "[0,1) " if q else ""
    timeline = drive(vehicle, "3", s=before + ("[2,9)" if s else ""), r="[2,9)" if r else "")
    settled = timeline.played[-1].moment.settled
    assert [settled.holds(named(vehicle, "sr")), settled.holds(named(vehicle, "rs"))] == [
        bool(set_dominant),
        bool(reset_dominant),
    ]


def test_4_12_published_latched_start() -> None:
    """4.12 (IEC 61131-3, as in matiec): start, latched by itself, broken by stop, is the reset dominant bistable."""
    vehicle = boxed(
        "rule m = (start or previous(m)) and not stop",
        "rule rs = bistable(set start, reset stop)",
        inputs=("start", "stop"),
    )
    timeline = drive(vehicle, "20", start="[1,2) [4,6) [8,9)", stop="[3,5) [7,9) [11,12)")
    assert when_true(timeline, "m") == when_true(timeline, "rs") == "[1,3) [5,7)"
