"""What is given, judged on played timelines: which assumption a timeline does not meet, and from when on."""

from __future__ import annotations

import pytest

from logiccheck.lang.program import Number, Program, Switch, WorldSet
from logiccheck.model.judge import broken
from logiccheck.model.play import first_world, play
from logiccheck.model.timeline import Timeline
from tests.model.driven import SECOND, drive, micros, program, pulses, told


def world(given: str = "", first: str = "") -> Program:
    return program(f"""
vehicle "Test"
world
    p contact
    q contact
    r contact
    key off | accessory | run | start one by one
    engine 0 .. 7000 rpm
    {first}
given
    {given}
    engine without jumps
requirements
    danger low  never engine below 300 rpm
    danger high never engine above 400 rpm
""")


def steps(vehicle: Program, name: str, *values: int) -> Timeline:
    """One change of this name a second."""
    changes = [WorldSet(i * SECOND, name, value) for i, value in enumerate(values)]
    return play(vehicle, changes, [], len(values) * SECOND, first_world(vehicle, {}, ()))


# case, assumption, p, q, when it is broken
CASES = [
    ("excluded", "never p and q", "[1,3)", "[2,4)", "at 2"),
    ("excluded-met", "never p and q", "[1,3)", "[3,4)", "holds"),
    ("always", "always p or q", "[0,3)", "[2,4)", "at 4"),
    ("G2-least", "p lasts at least 60 s", "[1,60)", "", "at 60"),
    ("G2-least-met", "p lasts at least 60 s", "[1,61)", "", "holds"),
    ("G2-least-going-on", "p lasts at least 60 s", "[99,..)", "", "holds"),
    ("G7", "p lasts at least 60 s", "[0,1)", "", "holds"),  # it may have been so for long
    ("G7-later", "p lasts at least 60 s", "[0,1) [5,65)", "", "holds"),
    ("G7-too-early", "p lasts at least 60 s", "[5,64)", "", "at 64"),
    ("G2-most", "p lasts at most 30 s", "[1,31)", "", "holds"),
    ("G2-most-longer", "p lasts at most 30 s", "[1,31.1)", "", "at 31"),
    ("G2-most-at-first", "p lasts at most 30 s", "[0,..)", "", "at 30"),  # a run under way began at 0
    ("G4", "p changes only while q", "[2,4)", "[1,3)", "at 4"),
    ("G4-just-before", "p changes only while q", "[1,..)", "[1,..)", "at 1"),  # just before, not at
    ("G4-met", "p changes only while q", "[2,3)", "[1,3)", "holds"),
    ("after", "q is on after p has lasted 3 s", "[1,9)", "[4,9)", "holds"),
    ("after-late", "q is on after p has lasted 3 s", "[1,9)", "[4.1,9)", "at 4"),
    ("after-at-first", "q is on after p has lasted 3 s", "[0,9)", "[4,9)", "at 3"),
    ("after-falls", "q is on after p has lasted 3 s", "[1,4)", "", "holds"),
]


@pytest.mark.parametrize(("case", "given", "p", "q", "expected"), CASES, ids=[row[0] for row in CASES])
def test_an_assumption_on_two_contacts(case: str, given: str, p: str, q: str, expected: str) -> None:
    """The first instant at which the timeline does not meet it."""
    found = broken(drive(world(given), "100", p=p, q=q))
    assert [told(each.instant) for each in found] == ([] if expected == "holds" else [expected])


def test_G2_time_stops() -> None:
    """G2: after both a shortest and a shorter longest time nothing can be done: one of the two is always broken."""
    vehicle = world("p lasts at least 60 s\n    p lasts at most 30 s")
    ends = {"29": ["at 29"], "31": ["at 31"], "60": ["at 60", "at 31"], "61": ["at 31"], "90": ["at 31"]}
    for over, found in ends.items():
        assert [told(each.instant) for each in broken(drive(vehicle, "100", p=f"[1,{over})"))] == found


def test_G5_a_contradiction_at_first() -> None:
    """G5: with both on at first the exclusion is broken; with one of them off, `at first` is."""
    vehicle = world("never p and q", "at first p is on, q is on")
    assert [told(each.instant) for each in broken(drive(vehicle, "9", p="[0,9)", q="[0,9)"))] == ["at 0"]
    assert [told(each.instant) for each in broken(drive(vehicle, "9", p="[0,9)"))] == ["at 0"]


def test_G3_one_by_one() -> None:
    """G3: the key passes its positions in turn, both ways; leaving one out is seen."""
    assert broken(steps(world(), "key", 0, 1, 2, 3, 2)) == ()
    (found,) = broken(steps(world(), "key", 0, 1, 3))
    assert isinstance(found.what, Switch)
    assert told(found.instant) == "at 2"


def test_G8_without_jumps() -> None:
    """G8: from 0 to above 400 the number passes 300, the interval between, and 400: four moments beside time 0."""
    assert broken(steps(world(), "engine", 0, 299, 300, 350, 399, 400, 401, 7000)) == ()
    for jump in ([0, 301], [0, 300, 400], [0, 300, 350, 500], [0, 300, 350, 400, 350, 200]):
        (found,) = broken(steps(world(), "engine", *jump))
        assert isinstance(found.what, Number)
        assert told(found.instant) == f"at {len(jump) - 1}"


@pytest.mark.parametrize(
    ("key", "stops", "found"),
    [
        ("[0,5) [5.1,20)", "14", []),
        ("[0,5)", "8", []),
        ("[0,5)", "8.1", ["at 8"]),
        ("[0,5)", "1", []),
        ("", "3", []),
        ("", "3.1", ["at 3"]),
    ],
)
def test_G1_physics_after_a_time(key: str, stops: str, found: list[str]) -> None:
    """G1: an output may be named as what has lasted; a short gap of it lets all stories remain."""
    vehicle = program("""
vehicle "Test"
world
    key contact
    engine 0 .. 7000 rpm
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key
controller "Box" powered by feed
    sense key_on from key_wire live
    output ignition when key_on
given
    engine is 0 rpm after not ignition has lasted 3 s
""")
    engine = [WorldSet(0, "engine", 800), WorldSet(micros(stops), "engine", 0)]
    timeline = play(vehicle, [*pulses("key", key), *engine], [], micros("15"), first_world(vehicle, {}, ()))
    assert [told(each.instant) for each in broken(timeline)] == found
