"""Why the situation of a requirement cannot occur: these rules, any rules at all, or what is given, named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Undecided
from logiccheck.explain.aside import Emptiness, Hollow
from logiccheck.explain.asking import Asking, Never, Open, Seen
from logiccheck.explain.freed import freed
from logiccheck.explain.hollow import happens, hollow
from logiccheck.lang.resolve.bounds import with_bounds
from logiccheck.model.story import Story
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.oracle import Kind as Explored
from tests.oracle.oracle import decide
from tests.oracle.programs import random_program

VAN = """
vehicle "Van"
world
    key    off | run
    engine 0 .. 7000 rpm
    at first key is off, engine is 0 rpm
harness
    source plus
    wire feed     from plus
    wire key_wire from plus when key is run
    wire spare
controller "Box" powered by feed
    sense key_on from key_wire live
    sense revs   from engine
    output pump when key_on and revs above 400 rpm
    output dead when key_on and not key_on
given
    never engine above 5000 rpm and key is off
    always engine below 6000 rpm
    engine without jumps
requirements
"""


def found(requirement: str, vehicle: str = VAN) -> tuple[Emptiness | None, list[str]]:
    """What keeps the case of the requirement away, and the text of the lines that do."""
    text = f"{vehicle}    danger r {requirement}\n"
    program = loaded(text)
    empty = [verdict for verdict in check_program(program).verdicts if verdict.kind is Kind.NO_CASE]
    assert len(empty) == 1
    emptiness = hollow(program, empty, 60.0, lambda _: None).get("r")
    return emptiness, [text[span.begin : span.end] for span in (emptiness.lines if emptiness else ())]


@pytest.mark.parametrize(
    ("requirement", "kind", "lines"),
    [
        ("never dead while key is run", Hollow.RULES, []),
        ("never pump while pump and key is off", Hollow.RULES, []),
        ("never pump while spare", Hollow.ANYTHING, []),
        ("never pump while key is off and key is run", Hollow.ANYTHING, []),
        ("never pump while engine above 6000 rpm", Hollow.GIVEN, ["always engine below 6000 rpm"]),
        (
            "never pump while engine above 5500 rpm and key is off",
            Hollow.GIVEN,
            ["never engine above 5000 rpm and key is off"],
        ),
        ("never pump while engine above 5000 rpm and key is off for longer than 3 s", Hollow.GIVEN, None),
    ],
)
def test_each_kind(requirement: str, kind: Hollow, lines: list[str] | None) -> None:
    """The kind, and of what is given the lines that it takes."""
    emptiness, texts = found(requirement)
    assert emptiness is not None
    assert emptiness.kind is kind
    if lines is not None:
        assert texts == lines


def test_it_takes_two_lines() -> None:
    """Neither of them suffices."""
    vehicle = VAN.replace("always engine below 6000 rpm", "never engine above 5000 rpm and key is run")
    emptiness, texts = found("never pump while engine above 5500 rpm", vehicle)
    assert emptiness is not None
    assert texts == ["never engine above 5000 rpm and key is off", "never engine above 5000 rpm and key is run"]


def test_without_a_box() -> None:
    """There are no rules to be otherwise: it is the copper."""
    text = 'vehicle "Relays"\nworld\n    key contact\nharness\n    source plus\n    wire a from plus when key\n'
    text += "    wire b\nrequirements\n"
    emptiness, _ = found("never a while b", text)
    assert emptiness == Emptiness(Hollow.RULES)


def test_out_of_time() -> None:
    """Nothing is said."""
    program = loaded(VAN + "    danger r never pump while spare\n")
    empty = [verdict for verdict in check_program(program).verdicts if verdict.kind is Kind.NO_CASE]
    assert hollow(program, empty, 1e-9, lambda _: None) == {}


def test_a_line_of_which_nothing_is_known(monkeypatch: pytest.MonkeyPatch) -> None:
    """That it is needed is not said then."""
    program = loaded(VAN + "    danger r never pump while engine above 6000 rpm\n")
    empty = [verdict for verdict in check_program(program).verdicts if verdict.kind is Kind.NO_CASE]
    answers = iter([Never(), Seen(Story((), (), False, frozenset())), Open(Undecided.MEMORY)])
    monkeypatch.setattr(Asking, "fails", lambda *_: next(answers))
    assert hollow(program, empty, 60.0, lambda _: None) == {}
    assert not [*answers]


@pytest.mark.parametrize("seed", range(9000, 9060))
def test_explored(seed: int) -> None:
    """Exploring all of a random vehicle that does as it likes agrees whether the rules are what keeps it away."""
    program = loaded(random_program(seed).text)
    empty = [v for v in check_program(program).verdicts if v.kind is Kind.NO_CASE and not v.builtin]
    kinds = hollow(program, empty, 60.0, lambda _: None)
    for verdict in empty:
        kind = kinds.get(verdict.requirement.name)
        if kind is None or program.box is None:
            continue
        asked = replace(verdict.requirement, form=happens(verdict))
        free = with_bounds(replace(freed(program), requirements=(asked,)))
        try:
            answer = decide(free, asked, 3_000)
        except TooBig:
            continue
        if answer.kind is not Explored.BLOCKED:
            assert (kind.kind is Hollow.RULES) == (answer.kind is Explored.FAILS)
