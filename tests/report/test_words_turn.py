"""Whole sentences about what would turn a signal."""

from __future__ import annotations

import pytest

from logiccheck.report import words_turn as words


@pytest.mark.parametrize(
    ("state", "sentence"),
    [
        ("on", "It would come on at once if: key is run."),
        ("off", "It would go off at once if: key is run."),
        ("live", "It would go live at once if: key is run."),
        ("dead", "It would go dead at once if: key is run."),
        ("not live", "It would be live no more at once if: key is run."),
        ("not both", "It would be both no more at once if: key is run."),
        ("grounded", "It would be grounded at once if: key is run."),
        ("live or grounded", "It would be live or grounded at once if: key is run."),
        ("closed", "It would close at once if: key is run."),
        ("open", "It would open at once if: key is run."),
        ("good", "It would be good at once if: key is run."),
        ("lost", "It would be lost at once if: key is run."),
        ("powered", "It would get power at once if: key is run."),
        ("without power", "It would lose power at once if: key is run."),
    ],
)
def test_how_each_signal_turns(state: str, sentence: str) -> None:
    assert words.at_once(state, ["key is run"], 0) == sentence


def test_changes_at_once() -> None:
    assert words.at_once("off", ["key is off, door is open", "engine below 300 rpm"], 4) == (
        "It would go off at once if: key is off, door is open; or engine below 300 rpm. "
        "More that are as small: 4 (--deep shows them)."
    )
    assert words.not_at_once("on", 3) == (
        "Nothing that is moved at this one moment makes it come on at once. Moves tried together, up to: 3."
    )
    assert words.not_at_once("on", 0) == "There is too much that hands could do at once to try it."


def test_changes_that_end_in_a_chase() -> None:
    assert words.left_out(["key is on, door is open", "key is run"], 0) == (
        "Moves after which rules or relays chase each other for ever were left out: key is on, door is open; key is run."
    )
    assert words.left_out(["key is on"], 2) == (
        "Moves after which rules or relays chase each other for ever were left out: key is on. "
        "More that are as small: 2 (--deep shows them)."
    )


def test_changes_for_later() -> None:
    assert words.later("on", "door is open", "4 min 38 s", ["the delay in aired is over"], 0) == (
        "It would come on at 4 min 38 s, when the delay in aired is over, if just now: door is open."
    )
    assert words.later("on", "door is open", "9 s", ["timer a ends", "timer b ends"], 2) == (
        "It would come on at 9 s, when timer a ends and timer b ends, if just now: door is open. "
        "More that are as small: 2 (--deep shows them)."
    )
    assert (
        words.not_later("off", 2)
        == "Nor does it go off later, if nothing is moved after that. Moves tried together, up to: 2."
    )


def test_time_alone() -> None:
    assert words.not_sooner("closed", 3) == (
        "None of the moves tried would make it close sooner than that, with nothing moved after them; "
        "at most together: 3."
    )
    assert (
        words.alone("off", "13 s", ["timer prime ends"])
        == "If nothing else moves, it goes off at 13 s, when timer prime ends."
    )
    assert (
        words.alone("closed", "13 s", ["timer a ends", "timer b ends"])
        == "If nothing else moves, it closes at 13 s, when timer a ends and timer b ends."
    )
    assert (
        words.alone("grounded", "13 s", ["timer a ends"])
        == "If nothing else moves, it is grounded at 13 s, when timer a ends."
    )
    assert words.stays("without power") == "If nothing else moves, it stays without power."
    assert (
        words.unfollowed("off", "5 min")
        == "If nothing else moves, it stays off up to 5 min; later than that was not looked."
    )
    assert words.chases("6 s") == (
        "If nothing else moves, rules or relays chase each other for ever at 6 s; what is on or off then, nobody can say."
    )
    assert words.has_to_move("9 s", "a lasts at most 4 s") == (
        "By 9 s something has to move, because this is given: a lasts at most 4 s."
    )


def test_what_is_moved() -> None:
    assert words.switch_is("key", "start", ["accessory", "run"]) == "key is start (past accessory, run)"
    assert words.switch_is("door", "open", []) == "door is open"
    assert words.number_is("engine", "0 rpm", "0 rpm", True, True) == "engine is 0 rpm"
    assert words.number_is("engine", "60 rpm", "", True, False) == "engine at least 60 rpm"
    assert words.number_is("engine", "60 rpm", "", False, False) == "engine above 60 rpm"
    assert words.number_is("engine", "60 rpm", "300 rpm", False, True) == "engine above 60 rpm and at most 300 rpm"
    assert words.number_is("engine", "", "300 rpm", False, False) == "engine below 300 rpm"


def test_terms() -> None:
    assert words.terms("off", 1) == "If the marked term were the opposite, it would go off:"
    assert words.terms("on", 3) == "If any one of the marked terms were the opposite, it would come on:"
    assert words.no_terms("on") == "No single term, were it the opposite, would make it come on."
    assert words.more_lines(2) == "More lines with such a term: 2 (--deep shows them)."
