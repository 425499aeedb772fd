"""Conditions that come with a call: read as a scenario expects them, and mistakes in them shown where they stand."""

from __future__ import annotations

import pytest

from logiccheck.lang.conditions import Asked, load_with
from logiccheck.lang.program import Position, Signal, SignalKind
from logiccheck.lang.reading import Unreadable

TEXT = """
vehicle "Test"
world
    key   off | run
    door  contact
harness
    source plus
    wire feed from plus when key is run
controller "Box" powered by feed
    sense awake from feed live
    output lamp when awake
scenario day
    at 1 s  key is run
"""


def asked(text: str, vehicle: str = TEXT) -> Asked:
    raw = vehicle.encode()
    return load_with("a.circuit", lambda path: raw if path == "a.circuit" else Unreadable.MISSING, text, "--when")


def test_conditions_are_read_one_by_one() -> None:
    """Each by its own text and meaning; an output is its true state; the vehicle has no more scenarios than before."""
    found = asked("key is run, lamp and not door")
    assert found.program is not None
    assert [each.text for each in found.conditions] == ["key is run", "lamp and not door"]
    assert found.conditions[0].p == Position("key", frozenset({1}))
    assert Signal(SignalKind.OUTPUT, "lamp") in found.conditions[1].p.parts  # type: ignore[union-attr]
    assert [scenario.name for scenario in found.program.scenarios] == ["day"]
    assert (found.conditions[1].span.begin, found.conditions[1].span.end) == (12, 29)


@pytest.mark.parametrize(
    ("text", "begin", "end", "sentence"),
    [
        ("key is runn", 7, 11, "`key` has no position `runn`."),
        ("door, kee is run", 6, 9, "Nothing is named `kee`."),
        ("", 0, 0, "At the end a condition is missing."),
        ("key is run and", 14, 14, "At the end a condition is missing."),
    ],
)
def test_mistakes_stand_where_they_are_in_the_call(text: str, begin: int, end: int, sentence: str) -> None:
    """Counted from the begin of what was given, in a text of that name, and the user's own words are shown."""
    found = asked(text)
    assert found.program is None
    (mistake,) = found.loaded.diagnostics
    assert (mistake.span.file, mistake.span.begin, mistake.span.end) == ("--when", begin, end)
    assert mistake.sentence == sentence
    assert found.loaded.texts["--when"] == text


def test_several_lines_are_one() -> None:
    """A line end in the call is a blank, so that nothing but conditions can come in."""
    found = asked("key is run,\ndoor")
    assert [each.text for each in found.conditions] == ["key is run", "door"]
    assert asked("door\nscenario other").program is None


@pytest.mark.parametrize("extra", ["", "    conditions_of_the_call_2 contact\n"])
def test_no_name_of_the_user_is_in_the_way(extra: str) -> None:
    """Whatever the vehicle names its things, none of them is named twice; what it does not name is not known."""
    more = "    conditions_of_the_call contact\n" + extra
    found = asked("key is run, not conditions_of_the_call", TEXT.replace("harness\n", f"{more}harness\n"))
    assert found.loaded.diagnostics == ()
    assert [each.text for each in found.conditions] == ["key is run", "not conditions_of_the_call"]
    assert [(each.span.begin, each.span.end) for each in found.conditions] == [(0, 10), (12, 38)]
    assert found.program is not None
    assert [scenario.name for scenario in found.program.scenarios] == ["day"]
    (mistake,) = asked("conditions_of_the_call").loaded.diagnostics
    assert mistake.sentence == "Nothing is named `conditions_of_the_call`."


def test_mistakes_of_the_file_stay_where_they_are() -> None:
    """Both are told."""
    found = asked("kee is run", TEXT.replace("when awake", "when awaken"))
    assert {each.span.file for each in found.loaded.diagnostics} == {"a.circuit", "--when"}
    assert found.conditions == ()
