"""Findings of the text: the whole sentence where they speak, and what looks much the same and is silent."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.surveyed.survey import Survey
from tests.study.linting import completed, findings, read, sentences

SPEAKS = [
    (
        "two-units",
        "output up when key_on and not on_delay(key_on, 5 s)\noutput down when door_open and not on_delay(door_open, 5 min)\n",
        ["`down` and `up` have one pattern, and times as far apart as two units are."],
    ),
    (
        "unused-name",
        "world\n    seat empty | taken\n",
        ["Nothing depends on the switch `seat`."],
    ),
    ("unused-name", "wire spare\n", ["Nothing depends on the wire `spare`."]),
    (
        "unused-name",
        "relay hold coil key_wire or hold\nrule seen = previous(seen) or door_open\noutput lamp when key_on\n",
        ["Nothing depends on the relay `hold`.", "Nothing depends on the rule `seen`."],
    ),
    (
        "unused-name",
        "world\n    fuel 0 .. 100 %\nsource second_plus\n",
        ["Nothing depends on the number `fuel`.", "Nothing depends on the source `second_plus`."],
    ),
    (
        "unfed-wire",
        "wire lid to ground when door is open\nsense lid_open from lid live\noutput lamp when lid_open\n",
        ["Nothing can ever make `lid` live, so the sense `lid_open` is always off."],
    ),
    (
        "unfed-wire",
        "wire a\nwire b\nrelay r coil a\nload bulb on b\nwire c from plus when r\nsense c_on from c live\noutput lamp when c_on\n",
        [
            "Nothing can ever make `a` live, so the relay `r` never pulls in.",
            "Nothing can ever make `b` live, so the load `bulb` is never on.",
        ],
    ),
    (
        "unfed-wire",
        "wire a\nwire b from a when door is open\nwire a2 from b\noutput lamp when key_on fed by a2\n",
        ["Nothing can ever make `a2` live, so the output `lamp` is never on."],
    ),
    (
        "backward-diode",
        "wire wake\ndiode wake -> door_wire\ndiode key_wire -> wake\nsense awake from wake live\noutput lamp when awake\n",
        [],
    ),
    (
        "backward-diode",
        "wire wake\nwire lid\ndiode wake -> lid\nsense awake from lid live\noutput lamp when awake\n",
        ["Nothing can ever pass the diode from `wake` to `lid`."],
    ),
    (
        "joined-for-good",
        "join key_wire with door_wire\nsense both from door_wire live\noutput lamp when both\n",
        ["`key_wire` and `door_wire` have a feed each, and nothing parts them: each makes the other live."],
    ),
    (
        "fed-from-behind",
        "wire aux from key_wire when door is open\noutput lamp when key_on feeds aux\n",
        ["The output `lamp` feeds `aux`, which copper feeds as well, with no diode between."],
    ),
    (
        "lost-brackets",
        "output a when cranking or key_on and not door_open\noutput b when key_on and not door_open\n",
        ["In `a` the `not door_open` is about the last part of the `or` alone, not the other part."],
    ),
    (
        "lost-brackets",
        "output a when not door_open and key_on or cranking\noutput b when key_on and not door_open\n",
        ["In `a` the `not door_open` is about the first part of the `or` alone, not the other part."],
    ),
    (
        "single-threshold",
        "rule warm = temperature above 90 degC\noutput fan when warm and key_on\noutput pump when warm\n",
        ["One threshold of `temperature` switches both on and off, with nothing in between: `fan`, `pump`."],
    ),
    (
        "exact-number",
        "output light when revs is 3000 rpm\n",
        ["`revs` is compared with one exact value in the middle of its range."],
    ),
    (
        "repeated-requirement",
        "output lamp when key_on\nrequirements\n    danger a never lamp and door is open\n    damage b never door is open and lamp\n",
        ["`b` asks the same as `a`."],
    ),
    (
        "repeated-requirement",
        "output lamp when key_on\nrequirements\n    danger a never not lamp while key is run\n    damage b always lamp while key is run\n",
        ["`b` asks the same as `a`."],
    ),
    (
        "repeated-requirement",
        "output lamp when key_on\nrequirements\n    danger a never lamp while door is open\n"
        "    danger b never door is open and lamp\n    danger c always not lamp while door is open\n"
        "    damage d never lamp while door is open for longer than 5 s\n"
        "    damage e never door is open and lamp for longer than 5 s\n",
        ["`b` asks the same as `a`.", "`c` asks the same as `a`.", "`e` asks the same as `d`."],
    ),
    (
        "belief-only",
        "output lamp when key_on\nrequirements\n    danger a never cranking while door_open\n",
        ["`a` guards against danger and speaks only of what the box believes: `cranking`, `door_open`."],
    ),
    (
        "says-nothing",
        "output lamp when key_on\nrequirements\n    function a lamp waits for lamp after key is run\n",
        ["`a` holds for any rules at all: it waits for itself."],
    ),
    (
        "says-nothing",
        "output lamp when key_on\nrequirements\n    function a key is run calls for lamp no later than 1 s, excused by not lamp\n",
        ["`a` holds for any rules at all: what is called for is excused by its own absence."],
    ),
    (
        "expects-nothing",
        "output lamp when key_on\nscenario a\n    at 2 s key is run\n    until 3 s\n",
        ["The scenario `a` expects nothing."],
    ),
    (
        "two-polarities",
        "wire w from plus when door is open, to ground when key is run\nsense up from w live\nsense down from w grounded\n"
        "output lamp when up or down\n",
        ["`up` reads `w` live and `down` reads it grounded: while it hangs free, both are off."],
    ),
    (
        "same-label",
        'output a "Left lamp" when key_on\noutput b "left lamp" when door_open\n',
        ['The output `b` has the label of `a`: "left lamp".'],
    ),
    (
        "small-fuse",
        "output pump when key_on\n    load 7.5 A, fuse 5 A\n",
        ["`pump` draws 7.5 A, and its fuse is rated 5 A."],
    ),
    (
        "exact-relay-time",
        "relay late coil on_delay(key_wire, 3 s)\nwire late_wire from plus when late\nsense l from late_wire live\noutput lamp when l\n",
        ["The delay relay `late` is taken to keep its time exactly."],
    ),
]

SILENT = [
    ("two-units", "output up when on_delay(key_on, 5 s)\noutput down when on_delay(door_open, 5 min)\n"),  # no pattern
    ("two-units", "output up when key_on and not on_delay(key_on, 5 s)\noutput down when door_open and not on_delay(door_open, 4 min)\n"),
    ("two-units", "output up when key_on and not on_delay(door_open, 5 s)\noutput down when door_open and not on_delay(door_open, 5 min)\n"),
    ("unused-name", "world\n    seat empty | taken\ngiven\n    never seat is taken and door is open\n"),  # given about it
    ("unused-name", "rule aired = door_open\ngiven\n    door is closed after aired has lasted 9 s\n"),  # given about it
    ("unused-name", "world\n    seat empty | taken\nelectrics\n    parked when seat is empty\n"),  # electrics reads it
    ("unused-name", "wire spare\nelectrics\n    tell_tale lamp while spare within 3 s\n"),
    ("unused-name", "source second_plus\nelectrics\n    battery second_plus 70 Ah\n"),
    ("unused-name", "wire spare\nrequirements\n    damage a never spare\n"),  # it is asked about
    ("unfed-wire", "wire lid to ground when door is open\nsense lid_open from lid grounded\noutput lamp when lid_open\n"),
    ("unfed-wire", "wire a\noutput pump when key_on feeds a\nrelay r coil a\nwire b from plus when r\nload bulb on b\n"),
    ("unfed-wire", "wire a\ndiode key_wire -> a\nload bulb on a\n"),
    ("backward-diode", "wire w to ground when door is open\nwire v\ndiode v -> w\nsense s from v grounded\noutput lamp when s\n"),
    ("joined-for-good", "join key_wire with door_wire when key is start\noutput lamp when door_open\n"),  # a contact
    ("joined-for-good", "wire far\njoin key_wire with far\nload bulb on far\n"),  # one feed, two names
    ("fed-from-behind", "wire a\ndiode key_wire -> a\nload bulb on a\noutput lamp when door_open feeds a\n"),
    ("fed-from-behind", "wire a\nwire b from a when door is open\nload bulb on b\noutput lamp when key_on feeds a\n"),
    ("lost-brackets", "output a when cranking or (key_on and not door_open)\noutput b when key_on and not door_open\n"),
    ("lost-brackets", "output a when (cranking or key_on) and not door_open\noutput b when key_on and not door_open\n"),
    ("lost-brackets", "output a when cranking or key_on and not door_open\noutput b when door_open\n"),
    ("lost-brackets", "output a when cranking and not key_on or key_on and not door_open\noutput b when key_on and not door_open\n"),
    ("single-threshold", "output fan when temperature above 90 degC until below 80 degC\n"),
    ("single-threshold", "output fan when on_delay(temperature above 90 degC, 10 s)\n"),
    ("single-threshold", "sense temperature from coolant filter 2 s\noutput fan when temperature above 90 degC\n"),
    ("single-threshold", "output light when revs above 3000 rpm\n"),  # a speed
    ("exact-number", "output light when revs is 0 rpm\n"),  # an end of its range
    ("exact-number", "output light when revs above 50 rpm\ngiven\n    engine is 20 rpm after key is off has lasted 3 s\n"),
    ("repeated-requirement", "output lamp when key_on\nrequirements\n    danger a never lamp while door is open\n"
     "    danger b never lamp while key is off\n    danger c never lamp for longer than 5 min\n"
     "    danger d never lamp for longer than 6 min\n"),
    ("repeated-requirement", "output lamp when key_on\nrequirements\n    danger a never lamp while door is open\n"
     "    danger b never lamp and door is open even for an instant\n    danger c never lamp or door is open\n"),
    ("belief-only", "output lamp when key_on\nrequirements\n    danger a never lamp while door_open\n    function b possible key_on\n"),
    ("says-nothing", "output lamp when key_on\nrequirements\n    function a key is run calls for lamp no later than 1 s\n"
     "    function b lamp waits for key is run\n    function c lamp only after lamp has lasted 3 s since key is off\n"),
    ("expects-nothing", "output lamp when key_on\nscenario a\n    at 2 s key is run\n    at 3 s expect lamp\n"),
    ("two-polarities", "wire w from plus when door is open\nwire v to ground when door is open\nsense up from w live\n"
     "sense down from v grounded\noutput lamp when up or down\n"),
    ("same-label", 'output a "Left lamp" when key_on\noutput b "Right lamp" when door_open\noutput c when key_on\noutput d when key_on\n'),
    ("small-fuse", "output pump when key_on\n    load 7.5 A, fuse 7.5 A\noutput horn when key_on\n    load 7.5 A\n"),
    ("exact-relay-time", "relay flash coil blink(key_wire, on 0.4 s, off 0.4 s)\nwire f from plus when flash\nload bulb on f\n"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "text", "said"), SPEAKS, ids=[f"{n}-{i}" for i, (n, _, _) in enumerate(SPEAKS)])
def test_what_is_said(name: str, text: str, said: list[str]) -> None:
    """The whole sentence."""
    assert sentences(text, name) == said


@pytest.mark.parametrize(("name", "text"), SILENT, ids=[f"{n}-{i}" for i, (n, _) in enumerate(SILENT)])
def test_where_nothing_is_said(name: str, text: str) -> None:
    """What looks much the same, and is as it should be."""
    assert sentences(text, name) == []


def test_hints() -> None:
    """What to do is said in the words of the file."""
    lid = "wire lid to ground when door is open\nsense lid_open from lid live\noutput lamp when lid_open\n"
    (finding,) = findings(lid, "unfed-wire")
    assert finding.diagnostic.hint == "It can only be grounded: is `lid_open` meant to read it grounded?"
    back = "wire wake\ndiode wake -> door_wire\nsense awake from wake live\noutput lamp when awake\n"
    (finding,) = findings(back, "backward-diode")
    assert finding.diagnostic.hint == "`door_wire` can be live, `wake` cannot: does it point the wrong way?"


def test_what_a_finding_rests_on() -> None:
    """The first name is what it is about."""
    fuse = "output pump when key_on\n    load 7.5 A, fuse 5 A\n"
    (finding,) = findings(fuse, "small-fuse")
    assert finding.signals == ("pump",)
    assert finding.story is None


@pytest.mark.parametrize(
    "asked",
    [
        "never lamp while not lamp",
        "always lamp while lamp",
        "never lamp while not lamp for longer than 1 s",
        "door is open calls for lamp no later than 1 s, excused by door is open",
        "door is open calls for lamp lasting 1 s, excused by door is open",
        "door is open calls for lamp no later than 1 s, excused by not lamp",
        "door is open calls for lamp lasting 1 s, excused by not lamp",
        "lamp calls for lamp no later than 1 s",
        "lamp only after lamp",
        "lamp only after lamp since door is open",
        "lamp waits for lamp",
        "lamp waits for lamp after door is open",
        "lamp waits for door is open after door is open",
        "always lamp or not lamp",
        "never lamp and not lamp",
        "never key is off while key is run and lamp",
        "never engine above 300 rpm and engine below 200 rpm",
        "always engine above 300 rpm or engine at most 300 rpm",
        "never lamp and key is off while key is run for longer than 1 s",
        "door is open calls for lamp or not lamp no later than 1 s",
        "door is open calls for key in {off, run, start} lasting 1 s",
        "door is open calls for lamp and door is open no later than 1 s, excused by not lamp or door is closed",
    ],
)
def test_what_says_nothing_holds_whatever_the_lamp_does(asked: str) -> None:
    """In a vehicle in which lamp and door change as they like, each of these is found, and proved."""
    text = (
        f"output lamp when key_on\nsense d from door_wire live\noutput o when d\nrequirements\n    function a {asked}\n"
    )
    assert len(sentences(text, "says-nothing")) == 1
    program = read(completed(text))
    assert Survey(program, Budget(60.0)).fails(program.requirements[0].form) is False


@pytest.mark.parametrize(
    "asked",
    [
        "always lamp or not o",
        "never key is off while lamp",
        "never engine above 300 rpm and engine below 400 rpm",
        "always revs above 300 rpm or revs at most 300 rpm",
        "never on_delay(lamp, 1 s +- 10 %) and not on_delay(lamp, 1 s +- 10 %)",
        "door is open calls for key in {off, run} no later than 1 s",
        "possible lamp or o",
    ],
)
def test_what_may_be_broken_says_something(asked: str) -> None:
    """A position is left, two numbers overlap, the box may sleep, two timers need not run alike."""
    text = (
        f"output lamp when key_on\nsense d from door_wire live\noutput o when d\nrequirements\n    function a {asked}\n"
    )
    assert sentences(text, "says-nothing") == []


@pytest.mark.parametrize("guard", ["danger", "damage", "function"])
def test_what_says_nothing_guards_as_it_claims_to(guard: str) -> None:
    """Whoever believes in it believes that much."""
    text = f"output lamp when key_on\nrequirements\n    {guard} a always lamp or not lamp\n"
    (finding,) = findings(text, "says-nothing")
    assert finding.guards.value == guard
