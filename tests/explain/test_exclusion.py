"""What keeps something from ever being so: parts of it that can never all be so at once, and no part too many."""

from __future__ import annotations

from itertools import combinations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain.edit import edited
from logiccheck.explain.edits import look_for_edits
from logiccheck.explain.ending import all_situations
from logiccheck.explain.exclusion import exclusion
from logiccheck.explain.mending import Excluded
from logiccheck.lang.load import load_text
from logiccheck.lang.program import And, Possible, Program
from logiccheck.report.causes import excluding

FILE = "test.circuit"
VEHICLE = """\
vehicle "Bench"
world
    a contact
    b contact
    key off | run | start
    at first a is off, b is off, key is off
harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire lamp_wire
controller "Box" powered by plus
    sense a_on from a_wire live
    sense b_on from b_wire live
    rule alone = a_on and not b_on
    rule both = b_on and a_on
    rule kept = bistable(set both, reset alone)
    output lamp when alone feeds lamp_wire
    output horn when alone and b_on
    output pump when kept fed by b_wire
requirements
    function asked possible {}
"""


def told(text: str) -> tuple[Program, tuple[Excluded, ...], list[str]]:
    """The program, what excludes each other, and how that is written."""
    loaded = load_text(VEHICLE.format(text), FILE)
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    form = loaded.program.requirements[0].form
    assert isinstance(form, Possible)
    found = exclusion(loaded.program, form.q, Budget(60))
    source = loaded.texts[FILE]
    return loaded.program, found, [source[each.part.span.begin : each.part.span.end] for each in found]


@pytest.mark.parametrize(
    ("asked", "parts"),
    [
        ("horn", ["not b_on", "b_on"]),
        ("lamp and both", ["not b_on", "b_on"]),
        ("lamp and b", ["not b_on", "b"]),
        ("a and lamp and key is run and b", ["not b_on", "b"]),
        ("a and key is run and key is off", ["key is run", "key is off"]),
        ("pump and not b", ["output pump when kept fed by b_wire", "not b"]),
        ("kept and alone", ["kept", "a_on", "not b_on"]),
        ("a and not a", []),
    ],
)
def test_the_parts(asked: str, parts: list[str]) -> None:
    """The parts as they are written; what remembers is not looked into, and of the requirement's own parts alone its
    sentence speaks already."""
    program, found, written = told(asked)
    assert written == parts
    for number in range(1, len(found)):
        for some in combinations(found, number):
            check = check_program(possible(program, some))
            assert [verdict.kind for verdict in check.verdicts] == [Kind.PROVED]
    if found:
        assert [verdict.kind for verdict in check_program(possible(program, found)).verdicts] == [Kind.FAILS]


def possible(program: Program, parts: tuple[Excluded, ...]) -> Program:
    """The program, asked whether all of these parts can be so at once."""
    (asked,) = program.requirements
    form = Possible(And(tuple(each.part for each in parts)))
    from dataclasses import replace

    return replace(program, requirements=(replace(asked, form=form),))


def test_a_near_miss_has_all_the_others() -> None:
    """Beside each part a story that ends with the other ones so, and not with it."""
    program, found, _ = told("lamp and b")
    for each in found:
        assert each.missed is not None
        end = all_situations(program, each.missed)[-1]
        assert [end.holds(other.part) for other in found] == [other is not each for other in found]


def test_what_can_be_so_is_excluded_by_nothing() -> None:
    """Only a proof excludes."""
    assert told("lamp and a")[1] == ()


def test_no_time_excludes_nothing() -> None:
    """Nothing is called impossible because there was no time."""
    program, _, _ = told("horn")
    form = program.requirements[0].form
    assert isinstance(form, Possible)
    assert exclusion(program, form.q, Budget(0)) == ()


def test_the_lines_are_shown_with_the_parts_marked() -> None:
    """One sentence, and the user's lines under it."""
    _, found, _ = told("horn")
    (cause,) = excluding(found, {FILE: VEHICLE.format("horn")})
    assert cause.sentence == "These can never all be so at once:"
    assert cause.excerpt is not None
    assert [line.text[begin:end] for line in cause.excerpt.lines for begin, end in line.marks] == ["not b_on", "b_on"]


def test_that_the_box_has_power_is_said() -> None:
    """Asleep it believes nothing, and so not what it always believes awake: `not awake` alone can be so."""
    text = (
        VEHICLE.format("dark")
        .replace("powered by plus", "powered by a_wire")
        .replace("    rule alone", "    sense awake from a_wire live\n    rule dark = not awake\n    rule alone")
    )
    loaded = load_text(text, FILE)
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    form = loaded.program.requirements[0].form
    assert isinstance(form, Possible)
    (cause,) = excluding(exclusion(loaded.program, form.q, Budget(60)), loaded.texts)
    assert cause.sentence == "This can never be so while the box has power:"
    assert cause.excerpt is not None
    assert [line.text[begin:end] for line in cause.excerpt.lines for begin, end in line.marks] == ["not awake"]


def test_an_edit_makes_it_possible() -> None:
    """What stands in the way is where edits are tried; typed, the requirement is proved."""
    text = VEHICLE.format("horn")
    program, found, _ = told("horn")
    check = check_program(program)
    mending = look_for_edits(program, FILE, {FILE: text}, check, 60, 10, lambda _: None, {"asked": found})["asked"]
    assert mending.edits
    for edit in mending.edits:
        loaded = load_text(edited(edit, {FILE: text}).files[FILE], FILE)
        assert loaded.program is not None
        assert [verdict.kind for verdict in check_program(loaded.program).verdicts] == [Kind.PROVED]
