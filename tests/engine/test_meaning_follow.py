"""The meaning by example, decided by the engine: what the vehicle does in one course of the world, to the instant.

Each case is the one that `tests.model` plays on the interpreter.
"""

from __future__ import annotations

import pytest

from logiccheck.lang.program import Program
from tests.engine.following import answers, questions, told
from tests.model.driven import boxed, program
from tests.model.test_harness import KEEP, SNEAK
from tests.model.test_memory_and_edges import RULES
from tests.model.test_power import HELD, HOLD, ON_AGAIN, keyed
from tests.model.test_timers import ALONE, PUBLISHED

TIMERS = [(case, rule, x, q) for case, rule, x, q in ALONE]
TIMERS += [(f"check-value-{entry}", rule, x, q) for entry, _, rule, x, q in PUBLISHED]


@pytest.mark.parametrize(("case", "rule", "x", "q"), TIMERS, ids=[row[0] for row in TIMERS])
def test_a_timer_alone(case: str, rule: str, x: str, q: str) -> None:
    """The output is on exactly then."""
    vehicle = boxed(f"output q when {rule}", more=questions({"x": x}, {"q": q}, "15"))
    assert told(vehicle) == answers({"q": q})


@pytest.mark.parametrize(("case", "rule", "a", "b", "q"), RULES, ids=[row[0] for row in RULES])
def test_stored_bits(case: str, rule: str, a: str, b: str, q: str) -> None:
    """Bistables, impulse relays and edges."""
    more = questions({"a": a, "b": b}, {"q": q}, "10")
    assert told(boxed(f"output q when {rule}", inputs=("a", "b"), more=more)) == answers({"q": q})


SPEEDS = [
    ("B7", {"below 300": "[0,1) [4,5)", "above 400": "[2,3)", "at least 300": "[1,4) [5,..)"}, "[2,4)"),
    ("B8", {"is 400": "[0,1)", "above 400": "[1,2)", "is 300": "[2,3)", "below 300": "[3,..)"}, "[1,3)"),
]


@pytest.mark.parametrize(("case", "speeds", "running"), SPEEDS, ids=[row[0] for row in SPEEDS])
def test_two_thresholds(case: str, speeds: dict[str, str], running: str) -> None:
    """Above 400 rpm until below 300 rpm, both strict; B7: 0, 350, 450, 350, 250, 350; B8: 400, 401, 300, 299."""
    inputs = {f"engine {fact} rpm": text for fact, text in speeds.items()}
    vehicle = program(
        'vehicle "Test"\nworld\n    engine 0 .. 7000 rpm\nharness\n    source plus\n    wire feed from plus\n'
        'controller "Box" powered by feed\n    sense revs from engine\n'
        f"    rule running = revs above 400 rpm until below 300 rpm\n{questions(inputs, {'running': running}, '6')}"
    )
    assert told(vehicle) == answers({"running": running})


KEYED = [("C1", "a", "[0,..)", "[0,5)", "[0,5)"), *ON_AGAIN]


@pytest.mark.parametrize(("case", "rule", "a", "key", "q"), KEYED, ids=[row[0] for row in KEYED])
def test_memory_is_lost_with_the_power(case: str, rule: str, a: str, key: str, q: str) -> None:
    """The box is fed through the key."""
    expected = {"q": q, "powered": key}
    more = questions({"ca": a, "cb": "", "key": key}, expected, "15")
    assert told(keyed(f"output q when {rule}", more=more)) == answers(expected)


def test_C12_start_up_delay() -> None:
    """The feed must be live for 0.3 s; an interruption starts it afresh."""
    expected = {"q": "[1.3,3) [3.5,9)"}
    more = questions({"key": "[0,0.1) [1,3) [3.2,9)", "ca": "[0,..)"}, expected, "10")
    assert told(keyed("output q when a", after="after 0.3 s", more=more)) == answers(expected)


def held(supply: str, inputs: dict[str, str], expected: dict[str, str], until: str) -> Program:
    return program(HELD.format(coil="wake", supply=supply) + questions(inputs, expected, until))


@pytest.mark.parametrize(("case", "door", "feed", "prime"), HOLD, ids=[row[0] for row in HOLD])
def test_a_relay_holds_the_feed(case: str, door: str, feed: str, prime: str) -> None:
    """The feed lives as long as the off-delay relay, and every waking primes."""
    expected = {"feed": feed, "prime": prime}
    inputs = {"door is open": door, "battery is full": "[0,..)"}
    assert told(held("", inputs, expected, "600")) == answers(expected)


def test_C9_a_relay_forgets_without_supply() -> None:
    """The relay is dead with its supply, and does not come back by itself."""
    expected = {"feed": "[0,10)"}
    inputs = {"door is open": "[0,2)", "battery is full": "[0,10) [11,..)"}
    assert told(held("supply plus", inputs, expected, "600")) == answers(expected)


SNEAKS = [("D1", "diode key_wire -> wake", ""), ("D2", "join key_wire with wake", "[1,2)")]


@pytest.mark.parametrize(("case", "join", "key_wire"), SNEAKS, ids=[row[0] for row in SNEAKS])
def test_a_sneak_path(case: str, join: str, key_wire: str) -> None:
    """A diode keeps the key wire dead; a plain wire in its place feeds it from the door."""
    expected = {"wake": "[1,2)", "key_wire": key_wire, "key_on": key_wire}
    vehicle = program(SNEAK.format(join=join) + questions({"key": "", "door": "[1,2)"}, expected, "3"))
    assert told(vehicle) == answers(expected)


KEPT = [("D3", "[0,10)", "[0,130)"), ("D4", "[0,10) [130,..)", "[0,..)")]


@pytest.mark.parametrize(("case", "key", "powered"), KEPT, ids=[row[0] for row in KEPT])
def test_a_box_that_feeds_itself(case: str, key: str, powered: str) -> None:
    """The box keeps its own feed alive until it has finished, and the key takes over without a gap."""
    expected = {"powered": powered, "keep": powered}
    assert told(program(KEEP + questions({"key": key}, expected, "200"))) == answers(expected)
