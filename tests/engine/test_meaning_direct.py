"""The meaning by example, decided by the engine where the answer is a sentence and not a course over time."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import SHORT_CIRCUIT, Check, Kind, Obstacle
from logiccheck.lang.load import load_text
from tests.engine.following import answers, questions, so_far, told, verdicts, wave
from tests.model.driven import SECOND, boxed, program


def test_A2_not_even_for_an_instant() -> None:
    """x falls at the moment at which the on-delay would come."""
    more = "requirements\n    danger d never r even for an instant\n    function f possible x_seen"
    vehicle = boxed(f"rule x_seen = {wave('[0,5)')}", "rule r = on_delay(x_seen, 5 s)", more=more)
    assert told(vehicle) == {"d": "proved", "f": "proved"}


def test_A11_tolerance() -> None:
    """An off-delay of 10 s +- 10 %: at most 12 s after x [0,1) and no more, and any end from 10 to 12 can happen."""
    course = so_far({"x": "[0,1)"})
    ends = "".join(
        f"    function at_{number} possible q becomes off and on_delay(true, {time} s)"
        f" and not on_delay(true, {time}001 s) and {course}\n"
        for number, time in enumerate(("9.999", "10.000", "11.500", "12.000", "12.001"))
    )
    more = (
        "requirements\n"
        f"    danger long never q while {course} for longer than 12 s\n"
        f"    danger less never q while {course} for longer than 11.9 s\n"
        f"    danger free never q for longer than 12 s\n{ends}"
    )
    found = told(boxed("output q when off_delay(x, 10 s +- 10 %)", more=more))
    assert found.pop("long") == "proved"
    assert (found.pop("less"), found.pop("free")) == ("fails overdue at 11.9", "fails overdue at 12")
    assert list(found.values()) == ["fails", "proved", "proved", "proved", "fails"]


def test_A15_one_shot_behind_a_relay() -> None:
    """x rises in a repeat of the moment in which q ends, one reaction late, and starts it anew without a gap."""
    vehicle = program(f"""
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
{questions({"k": "[0,1) [3,4)"}, {"q": "[0,6)"}, "9")}""")
    assert told(vehicle) == answers({"q": "[0,6)"})


MISTAKES = [
    ("A14", "rule q = on_delay(x, 0 s)", "NotAboveZero"),
    ("B9", "rule q = bistable(set x, reset q)", "RuleCircle"),
    ("E1", "rule a = not a", "RuleCircle"),
    ("E2", "rule a = off_delay(not a, 1 s)", "RuleCircle"),
    ("G6", "output ignition when x\ngiven\n    w is off while not ignition", "OutputInGiven"),
]


@pytest.mark.parametrize(("case", "lines", "mistake"), MISTAKES, ids=[row[0] for row in MISTAKES])
def test_mistakes_reach_no_engine(case: str, lines: str, mistake: str) -> None:
    """There is no program to decide."""
    loaded = load_text(
        'vehicle "T"\nworld\n    w contact\nharness\n    source plus\n    wire feed from plus\n'
        '    wire x_wire from plus when w\ncontroller "Box" powered by feed\n'
        f"    sense x from x_wire live\n    {lines}\n"
    )
    assert loaded.program is None
    assert [type(found.message).__name__ for found in loaded.diagnostics] == [mistake]


def test_C11_an_instant_without_power() -> None:
    """The relay changes over one reaction after its supply died: the feed has no gap, the box has forgotten all."""
    expected = {"feed": "[0,..)", "prime": "[0,3) [10,13)", "seen": "[0,10)"}
    vehicle = program(f"""
vehicle "Test"
world
    main_on contact
    x contact
harness
    source plus
    source main when main_on
    wire coil_wire from main
    wire x_wire from plus when x
    relay k coil coil_wire
    wire feed from main when k, otherwise from plus
controller "Box" powered by feed
    sense s from x_wire live
    rule prime = one_shot(true, 3 s)
    rule seen = bistable(set s)
{questions({"main_on": "[0,10)", "x": "[0,1)"}, expected, "20")}
    danger at_once always feed even for an instant
""")
    assert told(vehicle) == answers(expected) | {"at_once": "fails at 3600"}


def test_C13_filter_time() -> None:
    """A sense follows its input once that has been different for the filter time."""
    vehicle = program(f"""
vehicle "Test"
world
    x contact
harness
    source plus
    wire feed from plus
    wire x_wire from plus when x
controller "Box" powered by feed
    sense s from x_wire live filter 0.1 s
{questions({"x": "[1,1.05) [2,3)"}, {"s": "[2.1,3.1)"}, "4")}""")
    assert told(vehicle) == answers({"s": "[2.1,3.1)"})


def checked(text: str) -> Check:
    return check_program(program(text))


def test_D5_relay_race() -> None:
    """Both ends are named, and the relays that chase each other; nothing is green."""
    check = checked("""
vehicle "Test"
world
    switch contact
    other contact
harness
    relay k1 coil switch and not k2
    relay k2 coil switch and not k1
requirements
    danger d never k1 and k2
    danger e never other and not other
    danger f never other
""")
    (trouble,) = check.troubles
    assert (trouble.obstacle, trouble.givens) == (Obstacle.UNSETTLED, ())
    assert trouble.outcomes == (("k1",), ("k2",))
    assert trouble.chasing == ("k1", "k2")
    assert trouble.story is not None
    assert [step.world for step in trouble.story.steps] == [(("switch", 1),)]
    assert [verdict.kind for verdict in check.verdicts] == [Kind.BLOCKED, Kind.BLOCKED, Kind.FAILS]


def test_D7_a_short() -> None:
    """The built-in requirement fails with its story; where the two contacts exclude each other it is proved."""
    text = (
        'vehicle "T"\nworld\n    a contact\n    b contact\n'
        "harness\n    source plus\n    wire w from plus when a, to ground when b\n"
    )
    (verdict,) = checked(text).verdicts
    assert (verdict.requirement.name, verdict.builtin, verdict.kind) == (SHORT_CIRCUIT, True, Kind.FAILS)
    assert verdict.story is not None
    assert [step.world for step in verdict.story.steps] == [(("a", 1), ("b", 1))]
    (verdict,) = checked(f"{text}given\n    never a and b\n").verdicts
    assert verdict.kind is Kind.PROVED


def test_D8_diodes_in_a_circle() -> None:
    """Whichever wire is fed all are live; with none fed none is."""
    vehicle = program("""
vehicle "Test"
world
    x contact
    y contact
harness
    source plus
    wire a from plus when x
    wire b
    wire c from plus when y
    diode a -> b
    diode b -> c
    diode c -> a
requirements
    danger d never (a xor (x or y)) or (b xor (x or y)) or (c xor (x or y))
""")
    assert told(vehicle) == {"d": "proved"}


def test_D10_ground_through_a_diode() -> None:
    """Ground passes from cathode to anode and not the other way; live and grounded apart are no short."""
    vehicle = program("""
vehicle "Test"
world
    x contact
    y contact
    z contact
harness
    source plus
    wire a from plus when z, to ground when x
    wire b to ground when y
    diode a -> b
given
    never z and x
requirements
    danger anode never a is grounded xor (x or y)
    danger cathode never b is grounded xor y
    danger only_z never b is live xor z
    function apart possible b is live and a is live and not b is grounded
""")
    found = told(vehicle)
    assert found.pop(SHORT_CIRCUIT) == "fails at 0"  # z and y
    assert set(found.values()) == {"proved"}


def test_E4_chatter() -> None:
    """Reported first, from time 0 on; no requirement of the file is green."""
    check = check_program(boxed("rule flip = not previous(flip)", more="requirements\n    danger d never x and not x"))
    (trouble,) = check.troubles
    assert (trouble.obstacle, trouble.chasing, trouble.outcomes) == (Obstacle.UNSETTLED, ("flip",), ())
    assert trouble.story is not None
    assert trouble.story.moments == 1
    assert [(verdict.kind, verdict.obstacle) for verdict in check.verdicts] == [(Kind.BLOCKED, Obstacle.UNSETTLED)]


def test_E5_two_timers_in_a_circle() -> None:
    """t1 [1,3) [4,6) and so on, t2 for an instant only."""
    expected = {"t1": "[1,3) [4,6) [7,8.5)", "t2": ""}
    rules = ("rule t1 = on_delay(x and not previous(t2), 1 s)", "rule t2 = on_delay(t1, 2 s)")
    more = questions({"x": "[0,8.5)"}, expected, "9") + "    danger at_once never t2 even for an instant"
    assert told(boxed(*rules, more=more)) == answers(expected) | {"at_once": "fails at 3"}


@pytest.mark.parametrize("x", ["[0,1)", "[0,5)"])
def test_F15_a_timer_of_a_requirement_counts_on(x: str) -> None:
    """The box sleeps from 1 on; the timer does not belong to it."""
    course = so_far({"x": "[0,6)", "y": "[5,6)", "key": "[0,1)"})
    vehicle = program(f"""
vehicle "Test"
world
    x contact
    y contact
    key contact
harness
    source plus
    wire feed from plus when key
    wire x_wire from plus when x
controller "Box" powered by feed
    sense s from x_wire live
requirements
    danger d never on_delay(x_wire, 5 s) and y while {course}
    danger e never on_delay(s, 5 s) and y while {course}
""")
    assert told(vehicle) == {"d": "fails at 5", "e": "proved"}


def test_H1_what_does_not_matter_is_not_counted() -> None:
    """A lamp that blinks all the time adds no moment to a story in which it does not matter, and is not shown in it."""
    lamp = "output lamp when blink(true, on 0.5 s, off 0.5 s)"
    more = "requirements\n    danger d never off_delay(x, 30 s) and not x for longer than 29 s"
    both = ("output q when x", lamp)
    alone, beside = (verdicts(boxed(*rules, more=more))["d"].story for rules in (both[:1], both))
    assert alone == beside
    assert alone is not None
    assert alone.moments == 3
    assert alone.involved == {"x"}
    assert [step.time // SECOND for step in alone.steps] == [0, 1, 30]


def test_among_equals_the_first_in_the_alphabet() -> None:
    """Fewest moments, fewest changes, earliest, then alphabetical: whatever the order in the file."""
    for contacts in ("a contact\n    b contact", "b contact\n    a contact"):
        for asked in ("never a or b", "never b or a"):
            vehicle = program(
                f'vehicle "T"\nworld\n    {contacts}\n    at first a is off, b is off\n'
                f"requirements\n    danger d {asked}\n"
            )
            story = verdicts(vehicle)["d"].story
            assert story is not None
            assert dict(story.steps[-1].world) == {"a": 1, "b": 0}
