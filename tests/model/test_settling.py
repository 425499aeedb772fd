"""Circles that settle and circles that do not, played on the interpreter."""

from __future__ import annotations

from logiccheck.model.interpreter import Machine
from logiccheck.model.race import chasing, outcomes
from tests.model.driven import boxed, drive, on_for_an_instant, program, verdict, when_true


def test_D5_relay_race() -> None:
    """D5: two relays that lock each other out chase each other when both are let go at once; one of them wins."""
    vehicle = program("""
vehicle "Test"
world
    switch contact
harness
    relay k1 coil switch and not k2
    relay k2 coil switch and not k1
requirements
    danger d never k1
""")
    timeline = drive(vehicle, "9", switch="[1,2)")
    assert not timeline.settles
    last = timeline.played[-1]
    assert (last.time, timeline.end) == (1_000_000, 1_000_000)
    assert chasing(last.moment) == {"k1", "k2"}
    assert outcomes(Machine(vehicle), last.moment) == {frozenset({"k1"}), frozenset({"k2"})}
    assert verdict(timeline, "d") == "holds"


def test_a_buzzer_has_no_end() -> None:
    """A relay that breaks its own coil settles nowhere, however slowly it moves."""
    vehicle = program("""
vehicle "Test"
world
    switch contact
harness
    relay k1 coil switch and not k1
""")
    last = drive(vehicle, "9", switch="[1,2)").played[-1]
    assert not last.moment.settles
    assert outcomes(Machine(vehicle), last.moment) == frozenset()


def test_E3_a_timer_that_resets_itself() -> None:
    """E3: always true when settled; false for an instant each time the second is over."""
    more = "requirements\n    danger d always a\n    danger e always a even for an instant"
    timeline = drive(boxed("rule a = off_delay(not previous(a), 1 s)", more=more), "5")
    assert when_true(timeline, "a") == "[0,..)"
    assert (verdict(timeline, "d"), verdict(timeline, "e")) == ("holds", "at 1")
    false_at = [
        each.time // 1_000_000
        for each in timeline.played
        if any("a" not in {name for _, name in reaction.values.true} for reaction in each.moment.reactions)
    ]
    assert false_at == [1, 2, 3, 4, 5]


def test_E4_chatter() -> None:
    """E4: a rule that negates itself never settles, from time 0 on."""
    timeline = drive(boxed("rule flip = not previous(flip)"), "5")
    assert not timeline.settles
    assert (len(timeline.played), timeline.settled) == (1, ())
    assert chasing(timeline.played[0].moment) == {"flip"}
    assert outcomes(Machine(timeline.program), timeline.played[0].moment) == frozenset()


def test_E5_two_timers_in_a_circle() -> None:
    """E5: the second is true for an instant, in which it resets both."""
    vehicle = boxed("rule t1 = on_delay(not previous(t2), 1 s)", "rule t2 = on_delay(t1, 2 s)")
    timeline = drive(vehicle, "9.5")
    assert when_true(timeline, "t1") == "[1,3) [4,6) [7,9)"
    assert when_true(timeline, "t2") == ""
    assert on_for_an_instant(timeline, "t2") == "3 6 9"
