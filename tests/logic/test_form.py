"""Boolean forms keep every place in its order and mean what the expression means; verdicts hang on them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.logic.boolalg import Not as SymNot

from logiccheck.engine import decider
from logiccheck.engine.certify import ProofRefused
from logiccheck.engine.check import check_program
from logiccheck.engine.replay import StoryRefused
from logiccheck.engine.verdict import Kind
from logiccheck.lang.program import Expr, Never, Output, Program, Rule
from logiccheck.logic.form import Form, form_of, lift
from logiccheck.model.circuit.reaction import Forms
from tests.logic.random_rules import BARE, WORDED, conditions
from tests.logic.rules import all_facts, box
from tests.oracle.loading import loaded


class Truth:
    """The algebra of truth values."""

    def constant(self, value: bool) -> bool:
        return value

    def negate(self, x: bool) -> bool:
        return not x

    def all_of(self, parts: list[bool]) -> bool:
        return all(parts)

    def any_of(self, parts: list[bool]) -> bool:
        return any(parts)

    def differ(self, left: bool, right: bool) -> bool:
        return left is not right


PLACES = [
    ("b and a and b or a", "b a b a"),
    ("a", "a"),
    ("e or d or c or b or a", "e d c b a"),
    ("not (b and not a) xor (c or b)", "b a c b"),
    ("at most one of (c, a, b)", "c a b"),
    ("on_delay(b and a, 1 s) and a", "on_delay(b and a, 1 s)|a"),
    ("a and true or false and b", "a b"),
]


@pytest.mark.parametrize(("text", "places"), PLACES, ids=[row[0] for row in PLACES])
def test_places_in_the_order_of_the_text(text: str, places: str) -> None:
    """One for each time that something is named, the same name as often as it stands there."""
    one = box({"r": text})
    form = form_of(one.expr("r"))
    assert [one.text_of(place.span) for place in form.places] == (
        places.split("|") if "|" in places else places.split()
    )


@settings(max_examples=150, deadline=None)
@given(conditions(st.one_of(BARE, WORDED)))
def test_a_form_means_what_the_expression_means(text: str) -> None:
    """Lifted into truth values, for all that the box can sense."""
    one = box({"r": text})
    expr = one.expr("r")
    form = form_of(expr)
    for facts in all_facts():
        assert lift(form, partial(one.truth, facts=facts), Truth()) is one.truth(expr, facts)


VEHICLE = """
vehicle "T"
world
    key off | run
    hood contact
harness
    source plus when key is run
    wire feed from plus
    wire hood_wire to ground when hood
controller "Box" powered by feed
    sense hood_open from hood_wire grounded
    rule allowed = not hood_open
    output starter when allowed and on_delay(true, 1 s)
requirements
    danger open_hood never starter and hood
    function works possible starter
"""


def _source(program: Program) -> Expr:
    return program.sources[0].condition


def _contact(program: Program) -> Expr:
    return next(c.condition for c in program.contacts if "hood_wire" in (c.left, c.right))


def _rule(number: int) -> Callable[[Program], Expr]:
    def find(program: Program) -> Expr:
        assert program.box is not None
        rule = program.box.rules[number]
        match rule:
            case Rule():
                return rule.expr
            case Output():
                return rule.command

    return find


def _forbidden(program: Program) -> Expr:
    form = program.requirements[0].form
    assert isinstance(form, Never)
    return form.p


NEGATED = {
    "contact": _contact,
    "rule": _rule(0),
    "command": _rule(1),
    "requirement": _forbidden,
}


def negating(victim: Expr) -> Callable[[Expr], Form]:
    """`form_of`, but of this one expression the form of its opposite."""

    def make(expr: Expr) -> Form:
        form = form_of(expr)
        return replace(form, expr=SymNot(form.expr)) if expr is victim else form

    return make


@pytest.mark.parametrize("name", NEGATED)
def test_one_negated_form_turns_a_verdict(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is proved then fails for the engine; but the interpreter plays the expressions, and refuses the story."""
    program = loaded(VEHICLE)
    assert [v.kind for v in check_program(program).verdicts] == [Kind.PROVED, Kind.PROVED]
    victim = NEGATED[name](program)
    monkeypatch.setattr(decider, "Forms", lambda: Forms(make=negating(victim)))
    with pytest.raises(StoryRefused):
        check_program(program, only=["open_hood"])


LATE = "danger late never starter and on_delay(powered and not hood, 5 s)"
TOO_GREEN = [
    ("source", _source, "danger no_feed never feed while key is run"),
    ("rule", _rule(0), LATE),
    ("command", _rule(1), LATE),
]


@pytest.mark.parametrize(("name", "find", "line"), TOO_GREEN, ids=[row[0] for row in TOO_GREEN])
def test_a_wrong_proof_by_one_negated_form_is_refused(
    name: str, find: Callable[[Program], Expr], line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It fails; the engine would prove it, but the audit reads the expressions, and refuses the proof."""
    program = loaded(f"{VEHICLE}    {line}\n")
    asked = [program.requirements[2].name]
    assert [v.kind for v in check_program(program, only=asked).verdicts] == [Kind.FAILS]
    monkeypatch.setattr(decider, "Forms", lambda: Forms(make=negating(find(program))))
    with pytest.raises(ProofRefused):
        check_program(program, only=asked)
