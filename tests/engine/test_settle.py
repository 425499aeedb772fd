"""How many repeats a moment needs: no fewer than that, from any memory, and no more."""

from __future__ import annotations

import pytest

from logiccheck.engine import settle as settling
from logiccheck.engine.check import check_program
from logiccheck.engine.settle import FEW_REPEATS, settle
from logiccheck.engine.verdict import Kind, Obstacle
from logiccheck.lang.program import Program
from logiccheck.model.circuit.reaction import Forms
from tests.model.driven import boxed
from tests.oracle.loading import loaded


def relays(count: int, more: str = "") -> Program:
    """Relays of which each works the next."""
    lines = "".join(f"    relay k{i} coil {f'k{i - 1}' if i else 'x'}\n" for i in range(count))
    return loaded(f'vehicle "T"\nworld\n    x contact\nharness\n{lines}{more}')


def repeats(program: Program) -> int:
    depth = settle(program, Forms())
    assert depth.always
    assert (depth.moment.unsettled == 0) or depth.moment.changing
    return len(depth.moment.reactions) - 1


@pytest.mark.parametrize("count", range(1, FEW_REPEATS + 4))
def test_relays_in_a_row(count: int) -> None:
    """The contact of each follows its coil one reaction later."""
    assert repeats(relays(count)) == count


DEPTHS = [
    ("nothing remembered", "output q when x", 0),
    ("a timer", "output q when on_delay(x, 1 s)", 0),
    ("an edge", "output q when rises(x)", 1),
    ("an edge that nobody sees", "output q when rises(x) and not x", 0),
    ("a stored edge", "output q when bistable(set rises(x), reset falls(x))", 0),
    ("the reaction before", "output q when previous(x)", 1),
    ("two reactions before", "output q when previous(previous(x))", 2),
    ("an edge of the reaction before", "output q when rises(previous(x))", 2),
    ("a latch by itself", "output q when x or previous(q)", 0),
    ("a one-shot behind the reaction before", "output q when one_shot(previous(x), 1 s)", 1),
]


@pytest.mark.parametrize(("name", "rule", "count"), DEPTHS, ids=[row[0] for row in DEPTHS])
def test_depth(name: str, rule: str, count: int) -> None:
    """The least number of repeats that is enough."""
    assert repeats(boxed(rule)) == count


def test_too_many_to_tell(monkeypatch: pytest.MonkeyPatch) -> None:
    """More relays in a row than are followed: whether it settles is not decided, and nothing is green."""
    monkeypatch.setattr(settling, "most_repeats", lambda program: FEW_REPEATS)
    program = relays(FEW_REPEATS + 1, "requirements\n    danger d never x and not x\n")
    assert not settle(program, Forms()).always
    check = check_program(program)
    assert [trouble.obstacle for trouble in check.troubles] == [Obstacle.UNSETTLED_UNKNOWN]
    assert [verdict.kind for verdict in check.verdicts] == [Kind.BLOCKED]


RACE = """
vehicle "T"
world
    a contact
    b contact
harness
    relay k1 coil a and not k2
    relay k2 coil b and not k1
"""


@pytest.mark.parametrize(
    ("given", "obstacle"),
    [
        ("", Obstacle.UNSETTLED),
        ("given\n    never a and b\n", None),
        ("given\n    never not a and not b\n", Obstacle.UNSETTLED),
        ("given\n    a changes only while b\n    b changes only while a\n    never a\n", None),
    ],
)
def test_only_what_can_be_reached_counts(given: str, obstacle: Obstacle | None) -> None:
    """Some memory lets the two relays chase each other; whether they ever do is a matter of what is given."""
    program = loaded(RACE + given)
    assert not settle(program, Forms()).always
    assert [trouble.obstacle for trouble in check_program(program).troubles] == ([obstacle] if obstacle else [])


def test_a_failure_whose_own_story_settles_stays() -> None:
    """Whatever else may chase itself; what would be proved, or would fail only there, is blocked."""
    asked = (
        "requirements\n    danger d never a and not b\n    danger e never k1 and not a\n    danger f never a and b\n"
    )
    check = check_program(loaded(RACE + asked))
    assert [trouble.obstacle for trouble in check.troubles] == [Obstacle.UNSETTLED]
    assert [verdict.kind for verdict in check.verdicts] == [Kind.FAILS, Kind.BLOCKED, Kind.FAILS]
