"""Whole sentences about the ways in which a signal can be on, and about what it is in all situations of a kind."""

from __future__ import annotations

from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Blocked, Open
from logiccheck.report import words_ever
from logiccheck.report import words_ways as words
from logiccheck.report.words_why import timer_ends


def test_situations() -> None:
    assert words.always("Fuel pump", "off", "key is off") == (
        "Fuel pump is always off when key is off. Proved for all situations, orders and timings."
    )
    assert words.differs("Fuel pump", "on", "off", "key is run") == (
        "When key is run, Fuel pump can be on and can be off."
    )
    assert words.nowhere("a and b") == "It never comes to that: a and b. Proved for all situations, orders and timings."
    assert (
        words.can_be("Lamp", "on", "off", "a") == "Lamp can be on when a; whether it can be off there was not decided."
    )
    assert words.never_yet("Lamp", "on", "a") == (
        "Lamp is never on when a. Proved for all situations, orders and timings. "
        "Whether it ever comes to that was not decided."
    )
    assert words.open_("Lamp", "on", "off", "a") == "Whether Lamp is on or off when a was not decided."


def test_what_excludes_each_other() -> None:
    assert words.already(["a"]) == "This alone is never so: a."
    assert words.already(["a", "b", "c"]) == "These alone are never so together: a, b and c."


def test_what_makes_the_difference() -> None:
    items = [words.reads("prime", words.ON, words.OFF), words.reads("hold", words.CLOSED, words.OPENED)]
    assert words.stored(True, items) == (
        "At the end of both examples hands and physics are the same; what is stored is not (first / second): "
        "prime on / off; hold closed / open."
    )
    assert words.stored(False, items[:1]) == "Stored otherwise in the two examples (first / second): prime on / off."
    assert words.moved(["key run / off"]) == (
        "No two examples with the same hands were found. In these differ (first / second): key run / off."
    )
    assert words.example(1, "on") == "Example 1: on"


def test_how_many_ways() -> None:
    assert words.ways("Fuel pump", "on", 4) == "Ways in which Fuel pump can be on: 4."
    assert words.ways_so_far("Fuel pump", "on", 12, 3, 40) == (
        "Ways shown in which Fuel pump can be on: 12 of 40 that the text allows; not decided: 3."
    )
    assert words.always_so("Fridge", "live") == (
        "Fridge is always live. Proved for all situations, orders and timings."
    )
    assert words.never_so("Lamp", "on") == "Lamp is never on. Proved for all situations, orders and timings."
    assert words.no_way_written("Lamp", "on") == "Lamp is never on: nothing that is written makes it so."
    assert words.counted(7, 2, 1) == "Ways that the text allows: 7; covered by another of them: 2; cannot happen: 1."
    assert words.counted(7, 0, 1) == "Ways that the text allows: 7; cannot happen: 1."
    assert words.too_many("Lamp", "on") == (
        "There are too many ways in which Lamp can be on to list them. Ask for a part of it."
    )


def test_what_is_claimed_of_them() -> None:
    assert words.these("on", 2, True, True) == (
        "Whenever it is on, one of these is so, or several are, and each makes it on. "
        "In none of them can a fact be left out. Proved for all situations, orders and timings."
    )
    assert words.these("on", 1, True, True) == (
        "Whenever it is on, this is so, and this makes it on. No fact of it can be left out. "
        "Proved for all situations, orders and timings."
    )
    assert words.these("closed", 1, False, True) == (
        "Whenever it is closed, this is so, and this makes it closed. Proved for all situations, orders and timings."
    )


def test_what_does_not_come_to_rest() -> None:
    assert words.these("on", 1, False, False) == "Whenever it is on, this is so, and this makes it on."
    assert words.AT_REST[Obstacle.UNSETTLED] == (
        "The rules or relays can chase each other for ever. This is said of what comes to rest."
    )
    assert words.AT_REST[Obstacle.UNSETTLED_UNKNOWN] == (
        "Whether the rules and relays always come to rest was not decided. This is said of what does."
    )


def test_one_way() -> None:
    assert words.way(2, ["prime", "not crashed"]) == "Way 2: prime and not crashed"
    steps = [
        words.at_first([words.begins("door", "open")]),
        words.step("2 s", [words.goes("key", "run"), timer_ends("hold", False)]),
    ]
    assert words.shortest_story(steps) == (
        "Shortest story: at first door is open; at 2 s key goes to run and timer hold ends."
    )
    assert words.a_story([words.at_first([])]) == "A story: it is so at first."


def test_what_cannot_be_and_what_is_open() -> None:
    assert words.cannot(["a", "b"], 3) == "Proved never so together: a and b. Ways that would need it: 3."
    assert words.cannot(["a"], 1) == "Proved never so: a. Ways that would need it: 1."
    why = words.why_open(Open(Undecided.BUDGET))
    assert words.undecided(["a", "b"], why) == (
        "a and b. Not decided: the time for it ran out. More time: --budget SECONDS."
    )
    assert words.and_more(3) == "Further ones, not listed: 3."
    assert words.why_open(Open(None)) == (
        "Not decided: what a coil remembers beside other terms cannot be asked for by itself."
    )
    assert words.why_open(Blocked(Obstacle.UNSETTLED)) == "No proof: the rules or relays can chase each other for ever."
    assert set(words.BLOCKED) == set(Obstacle)
    assert words.see_check("a.circuit") == "What stands in the way is shown by: logiccheck check a.circuit"


def test_calls_that_do_not_go_together() -> None:
    assert words_ever.one_at_a_time("--when", "--all-ways") == (
        "--when and --all-ways ask different things: give one of them."
    )
    assert words_ever.no_moment("--at", "--when") == (
        "--when asks about all situations, so --at has nothing to choose: leave one of them out."
    )
    assert words.moved_by_hand("key") == (
        "key only follows hands and physics: no rule and no wire decides it. Ask about something that hangs on it."
    )
