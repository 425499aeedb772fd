"""To which requirements an edit can matter: all others keep their verdict, and need not be decided again."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.explain.touched import Touched
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program

VEHICLE = """\
vehicle "Bench"
constants
    wait = 2 s
world
    a contact
    b contact
    n 0 .. 100 rpm
harness
    source plus
    source aux when b
    wire a_wire from plus when a
    wire far from a_wire
    wire b_wire from aux
    wire out
    relay hold coil off_delay(far, 3 s) supply plus
controller "Box" powered by plus
    sense a_on from a_wire live
    sense b_on from b_wire live
    sense v from n
    rule late = on_delay(a_on, wait)
    output pump when late and v below 50 rpm
    output lamp when b_on feeds out
given
    a lasts at least 1 s
requirements
    danger of_hold never hold while b
    danger of_pump never pump while b
    danger of_lamp always lamp while b
    danger of_out never out while not b
    danger of_wait never lamp for longer than wait
"""


def program(old: str = "", new: str = "") -> Program:
    """The bench, with these characters replaced."""
    assert VEHICLE.count(old) == 1 or not old
    loaded = load_text(VEHICLE.replace(old, new) if old else VEHICLE)
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    return loaded.program


@pytest.mark.parametrize(
    ("old", "new", "those"),
    [
        ("off_delay(far, 3 s)", "off_delay(far, 4 s)", ["of_hold"]),
        ("wire far from a_wire", "wire far from plus", ["of_hold", "of_pump"]),
        ("wire far from a_wire", "wire far from a_wire when b", ["of_hold", "of_pump"]),
        ("plus when a", "plus when not a", ["of_hold", "of_pump"]),
        ("source aux when b", "source aux when not b", ["of_lamp", "of_out", "of_wait"]),
        ("b_wire live", "b_wire grounded", ["of_lamp", "of_out", "of_wait"]),
        ("when late and", "when late or", ["of_pump"]),
        ("below 50 rpm", "below 60 rpm", ["of_pump"]),
        (" feeds out", "", ["of_out", "of_lamp", "of_wait"]),
        ("wait = 2 s", "wait = 3 s", ["of_pump", "of_wait"]),
        ("powered by plus", "powered by plus after 1 s", ["of_pump", "of_lamp", "of_out", "of_wait"]),
        ("powered by plus", "powered by a_wire", ["of_pump", "of_lamp", "of_out", "of_wait"]),
        ("at least 1 s", "at least 2 s", ["of_hold", "of_pump", "of_lamp", "of_out", "of_wait"]),
        ("supply plus", "supply aux", ["of_hold"]),
    ],
)
def test_those_to_which_it_can_matter(old: str, new: str, those: list[str]) -> None:
    """By names, through copper and box, relays and what is given; and those that keep their verdict do."""
    before, after = program(), program(old, new)
    found = [each.name for each in Touched(before).those(after, after.requirements)]
    assert sorted(found) == sorted(those)
    was, is_ = ({v.requirement.name: v.kind for v in check_program(each).verdicts} for each in (before, after))
    assert [name for name in was if was[name] is not is_[name] and name not in found] == []


def test_nothing_is_touched_by_nothing() -> None:
    """The same text read twice."""
    again = program()
    assert Touched(program()).those(again, again.requirements) == []
