"""Edits that would mend a failing requirement: each kind is found where it helps, and refused where it spoils."""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Check, Kind
from logiccheck.explain.edit import Edit, EditKind, edited
from logiccheck.explain.edits import look_for_edits
from logiccheck.explain.mending import Cut, Mending
from logiccheck.explain.trial import Trial
from logiccheck.lang.load import load, load_text
from logiccheck.lang.program import Program

FILE = "test.circuit"
VEHICLE = """\
vehicle "Bench"
constants
    blow = 2 s
world
    a contact
    b contact
    c contact
    n 0 .. 100 rpm
    at first a is off, b is off, c is off, n is 0 rpm
harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire c_wire from plus when c
{harness}
controller "Box" powered by plus
    sense a_on from a_wire live
    sense b_on from b_wire live
    sense c_on from c_wire live
    sense v from n
{box}
requirements
    danger asked {asked}
{more}
"""


def vehicle(harness: str, box: str, asked: str, more: str) -> str:
    """The bench with these lines in it."""
    texts = ["\n".join(f"    {line}" for line in each.splitlines()) for each in (harness, box)]
    head, _, scenario = more.partition("scenario")
    asking = "\n".join(f"    {line}" for line in head.splitlines())
    text = VEHICLE.format(harness=texts[0], box=texts[1], asked=asked, more=asking)
    return f"{text}\nscenario{scenario}\n" if scenario else text


def checked(text: str) -> tuple[Program, Check]:
    """The vehicle, loaded and checked anew."""
    loaded = load_text(text, FILE)
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    return loaded.program, check_program(loaded.program)


def mending(text: str, seconds: float = 60) -> Mending:
    """What the search finds for the requirement `asked`, which fails."""
    program, found = checked(text)
    return look_for_edits(program, FILE, {FILE: text}, found, seconds, 10, lambda _: None)["asked"]


def typed(edit: Edit, text: str) -> str:
    """The file when somebody has really typed the edit."""
    return edited(edit, {FILE: text}).files[FILE]


def new_lines(edit: Edit, text: str) -> list[str]:
    """The lines that the edit puts in place of others."""
    return [line.strip() for line in typed(edit, text).splitlines() if line not in text.splitlines()]


@dataclass(frozen=True)
class Case:
    """`box` and `harness` with a mistake, what is asked, the line that mends it, and what makes that line unwelcome."""

    kind: EditKind
    asked: str
    box: str
    line: str
    spoilt: str
    harness: str = ""


CASES = (
    Case(
        EditKind.GUARD,
        "never lamp while b",
        "output lamp when a_on",
        "output lamp when a_on and not b_on",
        "function lit always lamp while a",
    ),
    Case(
        EditKind.GUARD,
        "always lamp while b",
        "output lamp when a_on",
        "output lamp when a_on or b_on",
        "danger dark never lamp while not a",
    ),
    Case(
        EditKind.DROP,
        "never lamp while not a",
        "output lamp when (a_on or b_on)",
        "output lamp when a_on",
        "function lit always lamp while b",
    ),
    Case(
        EditKind.INVERT,
        "always lamp while a",
        "output lamp when not a_on or b_on",
        "output lamp when a_on or b_on",
        "function lit always lamp while not a",
    ),
    Case(
        EditKind.INVERT,
        "always lamp while a",
        "sense a_too from a_wire grounded\noutput lamp when a_too",
        "sense a_too from a_wire live",
        "danger dark never lamp while a",
    ),
    Case(
        EditKind.DURATION,
        "a calls for lamp lasting 3 s",
        "output lamp when off_delay(a_on, 2 s)",
        "output lamp when off_delay(a_on, 3 s)",
        "damage ends never lamp while not a for longer than 2.5 s",
    ),
    Case(
        EditKind.DURATION,
        "a calls for lamp lasting 3 s",
        "output lamp when off_delay(a_on, blow)",
        "blow = 3 s",
        "damage ends never lamp while not a for longer than 2.5 s",
    ),
    Case(
        EditKind.DURATION,
        "never lamp while not a for longer than 4 s",
        "output lamp when off_delay(a_on, 4 s +- 10 %)",
        "output lamp when off_delay(a_on, 3.5 s +- 10 %)",
        "function lit a calls for lamp lasting 3.5 s",
    ),
    Case(
        EditKind.THRESHOLD,
        "always lamp while n above 50 rpm",
        "output lamp when v below 50 rpm",
        "output lamp when v above 50 rpm",
        "function low always lamp while n below 20 rpm",
    ),
    Case(
        EditKind.THRESHOLD,
        "always lamp while n above 60 rpm",
        "output lamp when v below 40 rpm until above 50 rpm",
        "output lamp when v above 50 rpm until below 40 rpm",
        "function low always lamp while n below 20 rpm",
    ),
    Case(
        EditKind.MEMORY,
        "always lamp while a",
        "output lamp when bistable(set a_on, reset b_on)",
        "output lamp when bistable(set a_on, reset b_on, set wins)",
        "danger dark never lamp while b",
    ),
    Case(
        EditKind.MEMORY,
        "lamp calls for lamp lasting 1 h",
        "rule seen = rises(a_on)\nrule shown = seen or b_on\noutput lamp when shown",
        "rule shown = bistable(set seen or b_on)",
        "danger dark never lamp while not a and not b for longer than 1 min",
    ),
    Case(
        EditKind.DURATION,
        "never lamp while a for longer than 20 s",
        "output lamp when a_on and not on_delay(a_on, 10 min)",
        "output lamp when a_on and not on_delay(a_on, 20 s)",
        "function lit a becomes on calls for lamp lasting 30 s, excused by not a",
    ),
    Case(
        EditKind.BRACKETS,
        "never lamp while c",
        "output lamp when a_on or b_on and not c_on",
        "output lamp when (a_on or b_on) and not c_on",
        "function lit always lamp while a",
    ),
    Case(
        EditKind.EDGE,
        "always lamp while a and not b",
        "output lamp when bistable(set rises(a_on), reset b_on)",
        "output lamp when bistable(set a_on, reset b_on)",
        "danger wait lamp waits for a becomes on after b",
    ),
    Case(
        EditKind.DIODE,
        "never lamp while not a",
        "sense woken from wake live\nsense a_too from key_wire live\noutput lamp when a_too",
        "diode key_wire -> wake",
        "function lit_too always side while b",
        "wire wake from plus when b\nwire key_wire from plus when a\njoin key_wire with wake\nload side on key_wire",
    ),
    Case(
        EditKind.DIODE,
        "never lamp while not a",
        "sense a_too from key_wire live\noutput lamp when a_too",
        "diode key_wire -> wake",
        "function lit_too always side while b",
        "wire key_wire from plus when a\nwire wake from key_wire\ndiode b_wire -> wake\nload side on key_wire",
    ),
    Case(
        EditKind.FEED,
        "never lamp while not on_b",
        "output lamp when v above 3 rpm",
        "output lamp when v above 3 rpm fed by only_b",
        "function lit possible lamp and not b",
        "wire only_b from plus when b\nload on_b on only_b",
    ),
    Case(
        EditKind.READ,
        "never lamp xor b",
        "sense a_too from a_wire live\noutput lamp when a_too",
        "sense a_too from b_wire live",
        "function lit always lamp while a",
    ),
    Case(
        EditKind.FEED,
        "always b_lamp while b",
        "output lamp when a_on",
        "wire b_feed from plus when b",
        "danger dark never b_lamp while b and not a",
        "wire b_feed from a_wire when b\nload b_lamp on b_feed",
    ),
    Case(
        EditKind.DURATION,
        "a calls for lamp lasting 3 s",
        "rule held = off_delay(a_on, 2 s)\noutput lamp when held and off_delay(a_on, 2 s)",
        "output lamp when held and off_delay(a_on, 3 s)",
        "damage ends never lamp while not a for longer than 2.5 s",
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.kind.name}: {case.line}")
def test_what_is_offered_mends_it(case: Case) -> None:
    """It is among what is offered, and when it is really typed a fresh check proves the requirement, and no other
    verdict is worse."""
    text = vehicle(case.harness, case.box, case.asked, "")
    found = mending(text)
    assert case.line in [line for edit in found.edits for line in new_lines(edit, text)], found
    for edit in found.edits:
        assert {v.kind for v in checked(typed(edit, text))[1].verdicts} == {Kind.PROVED}


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.kind.name}: {case.line}")
def test_what_spoils_something_else_is_not_offered(case: Case) -> None:
    """The same edit mends it, and with it another requirement would fail."""
    text = vehicle(case.harness, case.box, case.asked, case.spoilt)
    found = mending(text)
    assert case.line not in [line for edit in found.edits for line in new_lines(edit, text)]
    for edit in found.edits:
        assert {v.kind for v in checked(typed(edit, text))[1].verdicts} == {Kind.PROVED}


HORN = "output lamp when a_on\noutput horn when lamp and b_on"


def test_an_output_that_could_never_be_on_is_spoilt() -> None:
    """`and not b_on` would mend it, and the horn could never sound."""
    text = vehicle("", HORN, "never lamp while b", "")
    assert "output lamp when a_on and not b_on" not in [
        line for edit in mending(text).edits for line in new_lines(edit, text)
    ]
    alone = vehicle("", "output lamp when a_on", "never lamp while b", "")
    assert "output lamp when a_on and not b_on" in new_lines(mending(alone).edits[0], alone)


def test_what_a_scenario_expects_stays_so() -> None:
    """`and not b_on` would mend it, and a scenario would go another way."""
    more = 'scenario day "A day"\n    at 1 s  a is on, b is on\n    at 1 s  expect lamp'
    found = mending(vehicle("", "output lamp when a_on", "never lamp while b", more))
    assert found.edits == ()
    assert found.cut is None
    assert found.tried > 0
    assert EditKind.GUARD in found.kinds


def test_a_requirement_that_fails_already_may_go_on_failing() -> None:
    """Only what gets worse is spoilt."""
    more = "function other always lamp while c"
    text = vehicle("", "output lamp when a_on", "never lamp while b", more)
    (edit, *_) = mending(text).edits
    assert new_lines(edit, text) == ["output lamp when a_on and not b_on"]
    kinds = {v.requirement.name: v.kind for v in checked(typed(edit, text))[1].verdicts}
    assert kinds == {"asked": Kind.PROVED, "other": Kind.FAILS}


def test_one_edit_may_mend_several() -> None:
    """What mends the first of two requirements mends the second, and that is said instead of looking again."""
    text = vehicle("", "output lamp when a_on", "never lamp while b", "danger again never lamp while b and a")
    program, found = checked(text)
    each = look_for_edits(program, FILE, {FILE: text}, found, 60, 10, lambda _: None)
    assert each["again"].like == "asked"
    assert each["again"].edits[0] in each["asked"].edits


def test_of_one_amount_only_the_nearest_is_told() -> None:
    """3.5 s would do as well as 3 s, and is not worth a word."""
    text = vehicle("", "output lamp when off_delay(a_on, 2 s)", "a calls for lamp lasting 3 s", "")
    told = [line for edit in mending(text).edits for line in new_lines(edit, text)]
    assert [line for line in told if "off_delay(a_on, " in line] == ["output lamp when off_delay(a_on, 3 s)"]


def test_a_longer_time_may_need_less_tolerance() -> None:
    """3 s +- 30 % is too short, whatever is longer with as much tolerance too long."""
    harness = "relay hold coil off_delay(a_wire, 3 s +- 30 %)"
    more = "damage ends never hold while not a for longer than 4 s"
    text = vehicle(harness, "output lamp when a_on", "a calls for hold lasting 3 s", more)
    (edit, *_) = mending(text).edits
    (line,) = new_lines(edit, text)
    assert re.fullmatch(r"relay hold coil off_delay\(a_wire, 3\.\d+ s \+- (10|5|1) %\)", line)
    assert {v.kind for v in checked(typed(edit, text))[1].verdicts} == {Kind.PROVED}


def test_what_mends_all_that_fails_comes_first() -> None:
    """`and not b_on` would be as short in each output; in the rule behind both it mends both."""
    box = "rule wanted = a_on\noutput lamp when wanted\noutput horn when wanted"
    text = vehicle("", box, "never lamp while b", "danger again never horn while b")
    program, found = checked(text)
    each = look_for_edits(program, FILE, {FILE: text}, found, 60, 10, lambda _: None)
    assert [new_lines(edit, text) for edit in each["asked"].edits] == [["rule wanted = a_on and not b_on"]]
    assert each["again"].like == "asked"


def test_no_time_is_said_to_be_that() -> None:
    """Nothing is called impossible because there was no time to look."""
    found = mending(vehicle("", "output lamp when a_on", "never lamp while b", ""), seconds=1e-9)
    assert (found.edits, found.cut) == ((), Cut.TIME)


@pytest.mark.parametrize(("error", "cut"), [(KeyboardInterrupt, Cut.INTERRUPTED), (MemoryError, Cut.MEMORY)])
def test_what_ends_the_search_is_said(monkeypatch: pytest.MonkeyPatch, error: type[BaseException], cut: Cut) -> None:
    """An interruption, or no memory, ends the search for this requirement and for all others."""

    def broken(*_: object) -> None:
        raise error

    monkeypatch.setattr(Trial, "read", broken)
    text = vehicle("", "output lamp when a_on", "never lamp while b", "danger again never lamp while c")
    program, found = checked(text)
    each = look_for_edits(program, FILE, {FILE: text}, found, 60, 10, lambda _: None)
    assert [(name, got.edits, got.cut) for name, got in each.items()] == [("asked", (), cut), ("again", (), cut)]


def test_beside_what_blocks_everything_nothing_is_looked_for() -> None:
    """Where rules chase each other for ever, that has to be mended first."""
    text = vehicle("", "output lamp when a_on\nrule flip = not previous(flip)", "never lamp while b", "")
    program, found = checked(text)
    assert found.troubles
    assert look_for_edits(program, FILE, {FILE: text}, found, 60, 10, lambda _: None) == {}


def test_an_edit_in_a_file_that_is_used() -> None:
    """The line to blame may stand in another file, and there it is edited."""
    text = vehicle("", "output lamp when a_on", "never lamp while b", "")
    begin, end = text.index('controller "Box"'), text.index("requirements")
    files = {"van.circuit": f'{text[:begin]}use "box.circuit"\n{text[end:]}', "box.circuit": text[begin:end]}
    found = load("van.circuit", lambda path: files[path].encode())
    assert found.program is not None, [diagnostic.sentence for diagnostic in found.diagnostics]
    check = check_program(found.program)
    (edit, *_) = look_for_edits(found.program, "van.circuit", found.texts, check, 60, 10, lambda _: None)["asked"].edits
    after = edited(edit, found.texts).files
    assert after["van.circuit"] == files["van.circuit"]
    assert "output lamp when a_on and not b_on" in after["box.circuit"]
    again = load("van.circuit", lambda path: after[path].encode()).program
    assert again is not None
    assert [verdict.kind for verdict in check_program(again).verdicts] == [Kind.PROVED]
