"""Whole sentences about why a signal is as it is."""

from __future__ import annotations

from logiccheck.engine.verdict import Kind, Undecided
from logiccheck.explain.behind import About
from logiccheck.report import words_why as words


def test_the_first_line() -> None:
    assert words.because("Fuel pump", "on", "12.5 s", ["prime is on", "crashed is off"]) == (
        "Fuel pump is on at 12.5 s because prime is on and crashed is off."
    )
    assert words.because("Lamp", "off", "0 s", ["a is off", "b is off", "c is off"]) == (
        "Lamp is off at 0 s because a is off, b is off and c is off."
    )
    assert words.because("Fridge", "on", "0 s", []) == (
        "Fridge is on at 0 s, and nothing that is written can make it otherwise."
    )


def test_hands_and_senses() -> None:
    assert words.moved_by_hand("key", "run", "21 s") == (
        "key is run at 21 s: hands and physics move it, no rule and no wire does."
    )
    assert words.sensed("revs", "900 rpm", "3 s", "engine", True) == (
        "revs reads 900 rpm at 3 s because engine is 900 rpm and the box has power."
    )
    assert words.sensed("revs", "nothing", "3 s", "engine", False) == (
        "revs reads nothing at 3 s because the box has no power."
    )


def test_since_when() -> None:
    assert words.since("", "", ()) == "It has been so from the start."
    assert words.since("10 s", "2 s", ["door went to open"]) == (
        "It has been so for 2 s: since 10 s, when door went to open."
    )
    assert words.since("10 s", "", ["door went to open", "timer prime ended"]) == (
        "It is so from this moment on, when door went to open and timer prime ended."
    )
    assert words.since("10 s", "2 s", ()) == "It has been so for 2 s: since 10 s."
    assert words.went_to("door", "open") == "door went to open"
    assert words.timer_ended("prime", False) == "timer prime ended"
    assert words.timer_ended("stage_1", True) == "the delay in stage_1 was over"
    assert words.timer_ended("", True) == "the start-up delay was over"
    assert words.timer_ends("prime", False) == "timer prime ends"
    assert words.timer_ends("stage_1", True) == "the delay in stage_1 is over"
    assert words.timer_ends("", True) == "the start-up delay is over"


def test_how_few() -> None:
    assert words.fewest(2, 0, True, True) == "Fewest facts that are enough: 2. No other set is as small."
    assert words.fewest(2, 3, True, True) == "Fewest facts that are enough: 2. Other sets as small: 3."
    assert words.fewest(2, 199, False, True) == "Fewest facts that are enough: 2. Other sets as small: 199 or more."
    assert words.fewest(9, 0, False, False) == (
        "Facts that are enough: 9. None of them can be left out; whether fewer would do was not found out."
    )


def test_what_it_means_that_facts_are_enough() -> None:
    assert words.keep("on", 3) == (
        "As long as the facts of the first sentence stay so, it stays on, whatever everything else does."
    )
    assert words.keep("without power", 1) == (
        "As long as the fact of the first sentence stays so, it stays without power, whatever everything else does."
    )


def test_facts() -> None:
    assert words.fact("key", "run", "") == "key is run"
    assert (
        words.fact("prime", "on", words.runs("10 s", "0.5 s")) == "prime is on (its time runs since 10 s, 0.5 s left)"
    )
    assert words.fact("crash_stop", "off", words.never("set", "so far")) == "crash_stop is off (never set so far)"
    assert words.made(words.at("set", "30 s"), ["crashed is on"], False) == "set at 30 s because crashed is on"
    assert words.made(words.at("set", "30 s"), [words.fact("crashed", "on", "", True)], True) == (
        "set at 30 s because crashed was on then"
    )
    assert words.power(False, True) == "the box had no power"
    assert words.reads_nothing("revs", True) == "revs read nothing"
    assert words.called("on_delay(a, limit)", "15 s") == "on_delay(a, limit) (15 s)"
    assert words.power(True) == "the box has power"
    assert words.power(False) == "the box has no power"
    assert words.holds_itself("hold", True, "10 s") == "hold holds itself (from 10 s on)"
    assert words.holds_itself("hold", True, "") == "hold holds itself (all along)"
    assert words.holds_itself("hold", False, "") == "hold was not closed before"
    assert words.fact(words.through_filter("crashed", False), "on", words.lets_through("80 ms")) == (
        "crashed after its filter is on (its filter lets the change through in 80 ms)"
    )
    assert words.through_filter("crashed", True) == "what its filter lets through"
    assert words.phase(False, "10 s", "0.1 s") == "its off time runs since 10 s, 0.1 s left"
    assert words.forgotten("10 s", True) == "forgotten at 10 s, when the box had no power"
    assert words.forgotten("10 s", False) == "forgotten at 10 s, when it had no supply"
    assert words.reads_nothing("revs") == "revs reads nothing"


def test_what_is_behind_it() -> None:
    assert words.behind("a is on", words.about(About.ITSELF, True), "", ["b is on"]) == "a is on, because b is on."
    assert words.behind("a is on (set at 3 s)", words.about(About.SET, True), "3 s", ["b is on"]) == (
        "a is on (set at 3 s); at 3 s what sets it is on, because b is on."
    )
    assert words.behind("a is off", words.about(About.RESET, True), "3 s", []) == (
        "a is off; at 3 s what resets it is on, and cannot be otherwise."
    )
    assert words.behind("t is on", words.about(About.INPUT, False), "", ["b is off"]) == (
        "t is on; its input is off, because b is off."
    )
    assert words.behind("t is on", words.about(About.INSTANT, True), "2 s", ["b is on"]) == (
        "t is on; at 2 s for an instant its input is on, because b is on."
    )
    assert words.told("a is on", words.KNOWN) == "a is on: see above."
    assert words.told("key is run (from 3 s on)", "") == "key is run (from 3 s on)."


def test_where_there_is_no_answer() -> None:
    assert words.which_scenario("van.circuit", "lamp", ["day", "night"]) == (
        "In which scenario? There are: day, night. Type: logiccheck why van.circuit lamp --scenario day"
    )
    assert words.no_scenario("van.circuit", "lamp", "no_spark") == (
        "The file has no scenario. For a moment of the story in which a requirement fails, type: "
        "logiccheck why van.circuit lamp --story no_spark"
    )
    assert words.not_both() == (
        "Is it the scenario or the story? Only one of --scenario and --story can be looked into at a time."
    )
    assert words.before_the_start("-1 s") == "There is no moment at -1 s: all begins at 0 s."
    assert words.after_the_end("40 s", "30 s") == "There is nothing at 40 s: what is played ends at 30 s."
    assert words.never_rests("5 s", "3 s") == (
        "At 5 s the rules or relays chase each other for ever, so nothing is on or off there. "
        "The last moment that comes to rest is at 3 s."
    )
    assert words.never_rests("0 s", "") == (
        "At 0 s the rules or relays chase each other for ever, so nothing is on or off there."
    )
    assert words.for_an_instant("3 s") == (
        "What the story shows is so only for an instant at 3 s; told here is how all is once it has come to rest."
    )
    assert words.without_story("no_spark", Kind.PROVED, None) == (
        "no_spark has no story to look into: it is proved to hold, and nothing breaks it."
    )
    open_ = Undecided.BUDGET
    assert {words.without_story("r", kind, open_ if kind is Kind.NOT_DECIDED else None) for kind in Kind} == {
        "r has no story to look into: it is proved to hold, and nothing breaks it.",
        "r has no story to look into: that it fails is proved without one.",
        "r has no story to look into: what it speaks of cannot occur.",
        "r has no story to look into: it is blocked, which `check` explains.",
        "r has no story to look into: it is not decided; the time for it ran out (more time: --budget SECONDS).",
    }
    assert words.without_story("r", Kind.NOT_DECIDED, Undecided.MEMORY) == (
        "r has no story to look into: it is not decided; the memory for it ran out (more memory: --memory MB)."
    )
    assert words.without_story("r", Kind.NOT_DECIDED, Undecided.INTERRUPTED) == (
        "r has no story to look into: it is not decided; it was interrupted."
    )
