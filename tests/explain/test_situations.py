"""What a signal is in all situations that meet some conditions, worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.decider import Decider
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Blocked, BugMet, Never, Open, Seen
from logiccheck.explain.situation import signals
from logiccheck.explain.situations import Situations, situations
from logiccheck.lang.conditions import load_with
from logiccheck.lang.program import Output, Relay
from logiccheck.lang.reading import Unreadable

VAN = """
vehicle "Van"
world
    key    off | run
    door   contact
    engine 0 .. 7000 rpm
    at first key is off, not door
harness
    source plus
    wire key_wire  from plus when key is run
    wire door_wire from plus when door
    wire wake
    diode key_wire -> wake
    diode door_wire -> wake
    relay hold coil off_delay(wake, 4 min) supply plus
    wire feed from plus when hold
controller "Box" powered by feed
    sense key_on from key_wire live
    sense revs   from engine
    rule  prime   = one_shot(not key_on, 3 s)
    rule  running = revs above 400 rpm until below 300 rpm
    output pump when prime or running
    output lamp when key_on
    output both when key_on and not key_on
"""


def found(name: str, text: str, vehicle: str = VAN, seconds: float = 60.0) -> Situations:
    raw = vehicle.encode()
    asked = load_with("a.circuit", lambda path: raw if path == "a.circuit" else Unreadable.MISSING, text, "--when")
    assert asked.program is not None, asked.loaded.diagnostics
    signal = signals(asked.program)[name]
    return situations(asked.program, signal, [each.p for each in asked.conditions], Budget(seconds), lambda _: None)


def stored(result: Situations) -> list[tuple[str, bool]]:
    return [
        (each.what.name if isinstance(each.what, Relay | Output) else each.what.key, each.on) for each in result.stored
    ]


def test_always_on() -> None:
    """The key feeds both the box and what it senses; the story shows it."""
    result = found("lamp", "key is run")
    assert isinstance(result.on, Seen)
    assert result.on.story.moments == 2
    assert result.off == Never()


def test_always_off() -> None:
    result = found("lamp", "key is off, door")
    assert result.on == Never()
    assert isinstance(result.off, Seen)


def test_never_comes_to_that() -> None:
    """The conditions exclude each other: which of them do."""
    result = found("pump", "door, lamp, key is off")
    assert (result.on, result.off) == (Never(), Never())
    assert result.apart == (1, 2)
    assert found("pump", "door, both").apart == (1,)


def test_what_is_stored_makes_the_difference() -> None:
    """With the door open, the key off and an engine at rest the pump primes for three seconds, then no more."""
    result = found("pump", "door, key is off, engine is 0 rpm")
    assert isinstance(result.on, Seen)
    assert isinstance(result.off, Seen)
    assert result.same_hands
    assert stored(result) == [("prime", True)]
    assert result.moved == ()
    assert (result.on.story.moments, result.off.story.moments) == (2, 3)


def test_numbers_count_by_what_they_are_compared_with() -> None:
    """Between the two thresholds the pump hangs on what was before."""
    result = found("pump", "engine above 300 rpm, engine below 400 rpm, not prime, powered, key is run")
    assert isinstance(result.on, Seen)
    assert result.same_hands
    assert stored(result) == [("running", True)]
    worlds = [dict(step.world) for step in result.on.story.steps]
    assert worlds[-1]["engine"] not in (300, 400, Fraction(300), Fraction(400))


def test_hands_make_the_difference() -> None:
    """Nothing is stored: what hands do is all there is to tell the two apart."""
    text = 'vehicle "T"\nworld\n    a contact\n    b contact\nharness\n    source plus\n    wire w from plus when a\n'
    result = found("w", "b", text)
    assert not result.same_hands
    assert result.stored == ()
    assert result.moved == ("a",)


def test_a_condition_may_have_a_timer_of_its_own() -> None:
    """Once the key of a box with power has been off for more than three seconds nothing is primed any more."""
    assert found("prime", "on_delay(powered and key is off, 3.1 s)").on == Never()
    assert isinstance(found("prime", "on_delay(powered and key is off, 2.9 s)").on, Seen)


def test_a_filter_that_only_the_condition_names() -> None:
    """A comparison of a filtered number that no rule makes is filtered all the same."""
    text = VAN.replace("sense revs   from engine", "sense revs   from engine\n    sense slow from engine filter 2 s")
    result = found("lamp", "slow above 5000 rpm, key is run", text)
    assert isinstance(result.on, Seen)
    assert result.off == Never()
    assert result.on.story.moments == 3  # time 0, the key, and the filter lets through what was so from the start


def test_time_that_is_not_enough() -> None:
    """Nothing is claimed then."""
    result = found("pump", "door", seconds=0.0)
    assert result.on == result.off == Open(Undecided.BUDGET)


def test_an_interrupt_keeps_what_was_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first answer stays, the second is open."""
    decide, calls = Decider.decide, list[int]()

    def once(decider: Decider, number: int) -> object:
        calls.append(number)
        if len(calls) > 1:
            raise KeyboardInterrupt
        return decide(decider, number)

    monkeypatch.setattr(Decider, "decide", once)
    result = found("lamp", "key is run")
    assert result.interrupted
    assert isinstance(result.on, Seen)
    assert result.off == Open(Undecided.INTERRUPTED)


@pytest.mark.our_bug
def test_a_mistake_of_ours_is_no_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> object:
        raise AssertionError("broken")

    monkeypatch.setattr(Decider, "_decide", broken)
    with pytest.raises(BugMet):
        found("lamp", "key is run")


CHATTER = VAN + "    rule flip = key_on and not previous(flip)\n"


def test_where_rules_chase_each_other() -> None:
    """A story that settles shows what it shows; that something can never be is not claimed."""
    assert found("lamp", "key is run", CHATTER).off == Blocked(Obstacle.UNSETTLED)
    pump = found("pump", "door, key is off", CHATTER)
    assert isinstance(pump.on, Seen)
    assert isinstance(pump.off, Seen)


@pytest.mark.parametrize(
    ("given", "by"),
    [
        ("    never not door\n    always not door\n", Obstacle.CONTRADICTION),
        ("    door lasts at least 60 s\n    door lasts at most 30 s\n", Obstacle.TIME_STOPS),
    ],
)
def test_what_is_given_stands_in_the_way(given: str, by: Obstacle) -> None:
    """Nothing is claimed of what rests on lines that contradict each other or stop time; and the rest is answered."""
    result = found("pump", "key is off", VAN + "given\n" + given)
    assert result.on == result.off == Blocked(by)


def test_without_power_the_box_believes_nothing() -> None:
    """A rule that says `not` is off, too."""
    result = found("prime", "not powered")
    assert result.on == Never()
    assert isinstance(result.off, Seen)


def test_a_condition_that_remembers_may_be_asked_again_and_again() -> None:
    """Each question has a memory of its own, and each proof is doubted."""
    result = found("lamp", "door, key is off, on_delay(key is run, 2 s), rises(door)")
    assert (result.on, result.off) == (Never(), Never())
    assert result.apart == (1, 2)
