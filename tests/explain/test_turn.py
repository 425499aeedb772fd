"""What would turn a signal, in small vehicles where it is plain to see; and in the day boat without a controller."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.explain.hands import Hands, place, places, worlds
from logiccheck.explain.ordinary import Turn
from logiccheck.explain.situation import Situation, signals
from logiccheck.explain.turn import Chase, Moved, Stays, Turning, Unfollowed, turning
from logiccheck.lang.program import Number, Program
from logiccheck.model.play import play_scenario
from tests.calling import EXAMPLES
from tests.model.driven import SECOND, program

WORLD = """vehicle "Test"
world
    a contact
    b contact
    gear low | mid | high one by one
    speed 0 .. 100 rpm
"""
COPPER = """harness
    source plus
    wire feed from plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire gear_wire from plus when gear is high
"""
BOX = """controller "Box" powered by feed
    sense a_on from a_wire live
    sense b_on from b_wire live
    sense in_high from gear_wire live
    sense revs from speed
"""
PLAY = "scenario played\n"


def vehicle(*rules: str, given: str = "", play: str = "    until 60 s", more: str = "") -> Program:
    """Two contacts, a gear and a speed, which a box senses as a_on, b_on, in_high and revs; and one scenario."""
    lines = "\n".join(f"    {rule}" for rule in rules)
    givens = f"given\n    {given}\n" if given else ""
    return program(f"{WORLD}{COPPER}{more}{BOX}{lines}\n{givens}{PLAY}{play}\n")


def asked(vehicle: Program, name: str, at: float) -> Turning:
    """What would turn the signal at that second of the first scenario."""
    place = Situation(play_scenario(vehicle, vehicle.scenarios[0]), Fraction(at).limit_denominator(1000) * SECOND)
    return turning(place, signals(vehicle)[name])


def told(turns: tuple[Turn, ...]) -> list[list[tuple[str, list[Fraction | int]]]]:
    return [[(target.name, list(target.values)) for target in turn.targets] for turn in turns]


def test_the_fewest_moves_turn_it() -> None:
    """Both contacts are needed; with one of them there, only the other."""
    both = vehicle("rule r = a_on and b_on", play="    at 10 s a is on\n    until 60 s")
    assert told(asked(both, "r", 5).now) == [[("a", [1]), ("b", [1])]]
    assert told(asked(both, "r", 10).now) == [[("b", [1])]]


def test_what_is_given_asks_for_another_move() -> None:
    """The contact b does not make the signal, but without it the contact a cannot be on."""
    tied = vehicle("rule r = a_on", given="never a and not b")
    assert told(asked(tied, "r", 5).now) == [[("a", [1]), ("b", [1])]]
    assert told(asked(vehicle("rule r = a_on"), "r", 5).now) == [[("a", [1])]]


def test_a_switch_passes_its_positions() -> None:
    """Two positions are two moves, and what it passes is told."""
    found = asked(vehicle("rule r = in_high"), "r", 5)
    assert [(turn.moves, turn.targets[0].through) for turn in found.now] == [(2, (1,))]
    assert found.tried == 2


def test_passing_can_turn_what_stays() -> None:
    """What remembers the middle position is set on the way to the last."""
    passed = vehicle(
        "sense in_mid from mid_wire live",
        "rule seen = bistable(set in_mid, reset a_on)",
        "rule r = seen and in_high",
        more="    wire mid_wire from plus when gear is mid\n",
    )
    assert told(asked(passed, "r", 5).now) == [[("gear", [2])]]


def test_all_arrive_together() -> None:
    """The contact is moved with the last position, not with the first: it is not yet on in the middle."""
    held = vehicle(
        "sense in_mid from mid_wire live",
        "rule spoilt = bistable(set in_mid and a_on)",
        "rule r = in_high and a_on and not spoilt",
        more="    wire mid_wire from plus when gear is mid\n",
    )
    assert told(asked(held, "r", 5).now) == [[("a", [1]), ("gear", [2])]]


def test_intervals_side_by_side_are_one_change() -> None:
    """A number that turns it above or below is two changes, each of neighbouring intervals."""
    outside = vehicle(
        "rule r = revs below 30 rpm or revs above 70 rpm", play="    at first speed is 50 rpm\n    until 60 s"
    )
    speed = outside.numbers[0]
    low, high = asked(outside, "r", 5).now
    assert [place(speed, value) for value in low.targets[0].values] == [0]
    assert [place(speed, value) for value in high.targets[0].values] == [4]
    more = vehicle("rule r = revs above 30 rpm", "rule q = revs above 70 rpm")
    assert [len(turn.targets[0].values) for turn in asked(more, "r", 5).now] == [3]


def test_places_of_a_number() -> None:
    """Each constant is an interval, and so is what lies between two and beside the last ones."""
    number = Number("n", "", Fraction(0), Fraction(10), "rpm", (Fraction(0), Fraction(4)), True)
    assert list(map(int, places(number))) == [0, 2, 4, 7]
    assert [place(number, value) for value in (0, 1, Fraction(7, 2), 4, 5, 10)] == [0, 1, 1, 2, 3, 3]


def test_a_number_without_jumps_passes_all_between() -> None:
    """It is moved once, and goes through each interval on its way."""
    lines = WORLD + COPPER + BOX + "    rule r = revs above 30 rpm\ngiven\n    speed without jumps\n"
    slow = program(lines.replace("gear low", "gear  low"))
    hands = Hands(slow, {"a": 0, "b": 0, "gear": 0, "speed": 0})
    far = max(hands.moves["speed"], key=lambda move: len(move.way))
    assert (far.cost, far.way) == (1, (30, 65))
    assert [world["speed"] for world in worlds((far,), {"speed": 0})] == [30, 65]


def test_what_moves_in_scenarios_is_told_first() -> None:
    """The contact that the scenario moves is more ordinary than the one before it in the file."""
    either = "rule r = a_on or b_on"
    assert told(asked(vehicle(either), "r", 5).now) == [[("a", [1])], [("b", [1])]]
    moving = vehicle(either, play="    at 10 s b is on\n    until 60 s")
    assert told(asked(moving, "r", 5).now) == [[("b", [1])], [("a", [1])]]


def test_time_alone() -> None:
    """A timer that runs turns it; one that runs no more does not."""
    shot = vehicle("rule r = one_shot(a_on, 3 s)", play="    at 10 s a is on\n    until 60 s")
    turn = asked(shot, "r", 11.5).alone
    assert isinstance(turn, Turn)
    assert (turn.time, sorted(turn.due), turn.rough) == (13 * SECOND, ["r"], False)
    assert asked(shot, "r", 20).alone == Stays()


def test_a_run_under_way_lasts_as_the_scenario_says() -> None:
    """Another run of the same timer lasts its nominal time, and is rough."""
    lasting = vehicle(
        "rule r = off_delay(a_on, 10 s +- 20 %)",
        play="    at 1 s a is on\n    at 2 s a is off\n    at 2 s r lasts 8 s\n    until 60 s",
    )
    turn = asked(lasting, "r", 5).alone
    assert isinstance(turn, Turn)
    assert (turn.time, turn.rough) == (10 * SECOND, False)
    later = asked(lasting, "r", 1)
    assert later.alone == Stays()
    assert told(later.later) == [[("a", [0])]]
    assert [(turn.time, turn.rough) for turn in later.later] == [(11 * SECOND, True)]


def test_later_needs_fewer_moves_than_at_once() -> None:
    """One contact and time, or two contacts now: both are told."""
    delayed = vehicle("rule r = on_delay(a_on, 5 s) or a_on and b_on")
    found = asked(delayed, "r", 5)
    assert told(found.now) == [[("a", [1]), ("b", [1])]]
    assert told(found.later) == [[("a", [1])]]
    assert [(turn.time, sorted(turn.due)) for turn in found.later] == [(10 * SECOND, ["r"])]
    assert found.tried_later == 1


def test_as_few_moves_may_turn_it_later() -> None:
    """Asked for that, also what takes as many moves and does it later is told; what does it at once is not repeated."""
    delayed = vehicle("rule r = on_delay(a_on, 5 s) or b_on or on_delay(b_on, 5 s)")
    place = Situation(play_scenario(delayed, delayed.scenarios[0]), 5 * SECOND)
    found = turning(place, signals(delayed)["r"], as_few=True)
    assert (told(found.now), told(found.later)) == ([[("b", [1])]], [[("a", [1])]])
    assert asked(delayed, "r", 5).later == ()


def test_what_turns_it_sooner_than_time_alone() -> None:
    """Asked for that, it is looked for also where time alone turns the signal; what is no sooner is not told."""
    slow = vehicle("rule r = on_delay(not a_on, 50 s) or on_delay(b_on, 5 s) or on_delay(in_high, 50 s)")
    place = Situation(play_scenario(slow, slow.scenarios[0]), 5 * SECOND)
    found = turning(place, signals(slow)["r"], as_few=True)
    assert isinstance(found.alone, Turn)
    assert (found.alone.time, told(found.later)) == (50 * SECOND, [[("b", [1])]])
    assert asked(slow, "r", 5).later == ()


def test_what_is_given_moves_something() -> None:
    """The contact cannot stay on for longer than 4 s, so nothing is said of all resting for 10 s."""
    moving = vehicle(
        "rule r = on_delay(a_on, 10 s)", given="a lasts at most 4 s", play="    at 5 s a is on\n    until 8 s"
    )
    found = asked(moving, "r", 6)
    assert isinstance(found.alone, Moved)
    assert found.alone.time == 9 * SECOND
    assert found.later == ()


def test_what_the_scenario_breaks_is_left_out() -> None:
    """What is given is not met before the moment: that is told, and the line counts no more."""
    broken = vehicle("rule r = a_on and b_on", given="never b", play="    at 5 s b is on\n    until 60 s")
    found = asked(broken, "r", 6)
    assert found.unmet
    assert told(found.now) == [[("a", [1])]]
    assert not asked(broken, "r", 4).unmet
    assert asked(broken, "r", 4).now == ()


def test_what_never_comes_to_rest() -> None:
    """A change after which rules chase each other turns nothing, and time that leads there is told."""
    chasing = vehicle("rule s = on_delay(a_on, 5 s)", "rule r = s and not previous(r)", "rule q = s and b_on")
    found = asked(chasing, "q", 5)
    assert (found.now, found.later, found.tried_later) == ((), (), 3)
    quiet = vehicle("rule s = on_delay(a_on, 5 s)", "rule q = s and b_on")
    assert told(asked(quiet, "q", 5).later) == [[("a", [1]), ("b", [1])]]
    running = vehicle(
        "rule s = on_delay(a_on, 5 s)", "rule r = s and not previous(r)", play="    at 1 s a is on\n    until 3 s"
    )
    assert asked(running, "r", 2).alone == asked(running, "b_on", 2).alone == Chase(6 * SECOND)


def test_a_blinker_goes_round() -> None:
    """Where all comes round again and it has not turned, it stays; a counted time is not reached."""
    blinking = vehicle("rule f = blink(not a_on, on 1 s, off 1 s)", "rule r = f and b_on")
    assert asked(blinking, "r", 5).alone == Stays()
    assert isinstance(asked(blinking, "f", 5).alone, Turn)


def test_two_blinkers_that_never_meet_are_followed_so_far() -> None:
    """With periods that come together only after hours it is said how far was looked."""
    slow = vehicle(
        "rule f = blink(not a_on, on 1.001 s, off 1.003 s)",
        "rule g = blink(not a_on, on 0.997 s, off 0.991 s)",
        "rule r = b_on and f and g",
    )
    assert isinstance(asked(slow, "r", 5).alone, Unfollowed)


def test_no_hands_can_matter() -> None:
    """A source that is always live hangs on nothing that anybody moves."""
    found = asked(vehicle("rule r = a_on"), "plus", 5)
    assert (found.hands, found.now, found.alone) == (False, (), Stays())


def test_too_much_to_try_is_not_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """A step is tried whole or not at all."""
    monkeypatch.setattr("logiccheck.explain.turn.WORK", 60)
    found = asked(vehicle("rule r = a_on and b_on"), "r", 5)
    assert (found.now, found.tried) == ((), 1)


BOAT = [
    ("ignition", 8, [], [[("key", [2]), ("blower_switch", [1])]]),
    ("ignition", 295, [[("key", [0])], [("master", [0])], [("stop_button", [1])]], []),
    ("bilge_pump", 4, [[("float_switch", [1])]], []),
    ("main", 2, [[("master", [1])]], []),
]


@pytest.mark.parametrize(("name", "at", "now", "later"), BOAT)
def test_a_boat_without_a_controller(
    name: str, at: float, now: list[list[tuple[str, list[int]]]], later: list[list[tuple[str, list[int]]]]
) -> None:
    """Wires, relays and loads alone."""
    boat = program((EXAMPLES / "relay-only" / "boat.circuit").read_text(encoding="utf-8"))
    found = asked(boat, name, at)
    assert (told(found.now), told(found.later)) == (now, later)


CHASES = """vehicle "Chases"
world
    key  contact
    door contact
harness
    source plus
    wire kw from plus when key
    relay buzz coil not buzz and kw supply plus
    relay calm coil kw supply plus
    relay both coil kw or door supply plus
    relay pair coil kw or not door supply plus
    relay slow coil on_delay(kw, 2 s) supply plus
    relay pass coil door supply plus
scenario played
    until 9 s
"""


@pytest.mark.parametrize(
    ("name", "now", "chased"),
    [
        ("buzz", [], [[("key", [1])]]),  # chases itself
        ("calm", [], [[("key", [1])]]),  # is turned, while another one chases
        ("both", [[("door", [1])]], [[("key", [1])]]),  # what turns it is not smaller
        ("pair", [[("door", [1])]], []),  # that move does not turn it
        ("slow", [], [[("key", [1])]]),  # would be turned later
        ("pass", [[("door", [1])]], []),
    ],
)
def test_what_ends_in_a_chase_is_told(name: str, now: list[object], chased: list[object]) -> None:
    """The smallest changes which are left out because rules or relays chase each other after them."""
    found = asked(program(CHASES), name, 5)
    assert (told(found.now), told(found.chased)) == (now, chased)


def test_a_larger_change_that_ends_in_a_chase_is_not_told() -> None:
    """One move turns it, and two would end in a chase."""
    chasing = vehicle("rule r = a_on", "rule s = a_on and b_on and not previous(s)", "rule t = r or s")
    found = asked(chasing, "t", 5)
    assert (told(found.now), found.chased) == ([[("a", [1])]], ())


def test_what_chases_anyhow_is_not_told_of_moves() -> None:
    """At 8 s rules chase each other without any move; what ends in that chase is not left out because of a move."""
    late = vehicle("rule l = on_delay(not a_on, 8 s)", "rule s = l and not previous(s)", "rule t = s and b_on")
    found = asked(late, "t", 5)
    assert isinstance(found.alone, Chase)
    assert found.chased == ()
