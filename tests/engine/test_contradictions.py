"""What is given can contradict itself at time 0: the lines named cannot hold together, and all of them are needed."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.budget import Budget
from logiccheck.engine import portfolio
from logiccheck.engine.certify import ProofRefused
from logiccheck.engine.check import check_program
from logiccheck.engine.cone import exact
from logiccheck.engine.pdr import Proof
from logiccheck.engine.recheck import looked_at_again
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.troubles import settled_moment
from logiccheck.engine.verdict import Kind, Obstacle
from logiccheck.engine.zones.decide import Covered, decide
from logiccheck.lang.program import Excluded, Expr, Not, Program
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.circuit.system import Line
from logiccheck.model.reaction import Values
from tests.engine.asking import question
from tests.oracle.loading import loaded

HEAD = """
vehicle "T"
world
    a contact
    b contact
    key off | run | start
"""
ATOMS = ["a", "b", "key is off", "key is run", "key in {run, start}", "key is not start", "a is off"]

conditions = st.recursive(
    st.sampled_from(ATOMS),
    lambda parts: st.one_of(
        st.tuples(parts, parts).map(lambda pair: f"({pair[0]} or {pair[1]})"),
        st.tuples(parts, parts).map(lambda pair: f"({pair[0]} and {pair[1]})"),
        parts.map(lambda part: f"not {part}"),
    ),
    max_leaves=3,
)
FACTS = ["a is on", "a is off", "b is on", "key is off", "key is run"]
vehicles = st.tuples(
    st.lists(st.sampled_from(FACTS), max_size=2, unique_by=lambda fact: fact.split()[0]),
    st.lists(st.tuples(st.sampled_from(["never", "always"]), conditions), min_size=1, max_size=5),
)


def text(facts: list[str], lines: list[tuple[str, str]]) -> str:
    first = f"    at first {', '.join(facts)}\n" if facts else ""
    return HEAD + first + "given\n" + "".join(f"    {word} {c}\n" for word, c in lines)


def said(program: Program) -> dict[tuple[str, int | str], Expr]:
    """What must be so at time 0, by kind and number."""
    result: dict[tuple[str, int | str], Expr] = {("at first", i): fact for i, fact in enumerate(program.at_first)}
    for i, each in enumerate(program.givens):
        assert isinstance(each, Excluded)
        result["given", i] = Not(each.p)
    return result


def possible(lines: list[Expr]) -> bool:
    """Whether some world meets them all."""
    for a, b, key in product((0, 1), (0, 1), (0, 1, 2)):
        values = Values({"a": a, "b": b, "key": key}, frozenset())
        if all(values.holds(line) for line in lines):
            return True
    return False


@settings(max_examples=150, deadline=None)
@given(vehicles)
def test_cores_are_contradictions_and_minimal(vehicle: tuple[list[str], list[tuple[str, str]]]) -> None:
    """Each core cannot hold and can with any line less; no line is in two; without all of them the rest can hold."""
    program = loaded(text(*vehicle) + "requirements\n    danger d never a and not a\n")
    lines = said(program)
    check = check_program(program)
    cores = [trouble.lines for trouble in check.troubles if trouble.obstacle is Obstacle.CONTRADICTION]

    def expr(line: Line) -> Expr:
        return lines[line.kind, line.which]

    for core in cores:
        assert not possible([expr(line) for line in core])
        for left in core:
            assert possible([expr(line) for line in core if line is not left])
    named = [(line.kind, line.which) for core in cores for line in core]
    assert len(named) == len(set(named))
    assert bool(cores) is not possible(list(lines.values()))
    assert possible([fact for key, fact in lines.items() if key not in named])


def test_what_does_not_touch_it_keeps_its_verdict() -> None:
    """Only what rests on the lines is blocked."""
    requirements = "requirements\n    danger d never a\n    danger e never b\n    danger f never key is off and b\n"
    check = check_program(loaded(text(["a is on"], [("never", "a")]) + requirements))
    assert [verdict.kind for verdict in check.verdicts] == [Kind.BLOCKED, Kind.FAILS, Kind.FAILS]


BESIDE = """
vehicle "T"
world
    c contact
    at first c is on
harness
    relay k1 coil k3 and not k2
    relay k2 coil k3 and not k1
    relay k3 coil k3
given
    never c
requirements
    danger d never k1
"""


def test_that_all_settles_beside_it_is_looked_at_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is proved rests on that; where the audit has nothing to say a search that claims everything is refused."""
    check = check_program(loaded(BESIDE))
    assert [trouble.obstacle for trouble in check.troubles] == [Obstacle.CONTRADICTION]
    assert [verdict.kind for verdict in check.verdicts] == [Kind.PROVED]
    monkeypatch.setattr(Cegar, "run", lambda self, _: TimedProof(self.cone, self.tracked, Proof(())))
    with pytest.raises(ProofRefused, match="the search does not stand by it"):
        check_program(loaded(BESIDE))


def test_zones_are_not_asked_where_nobody_doubts_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only what refinement proves is looked at again there; a proof by zones would pass without any doubt."""

    def asked(*_: object) -> None:
        raise AssertionError("zones were asked")

    monkeypatch.setattr(Cegar, "run", lambda *_: None)
    monkeypatch.setattr(portfolio, "decide", asked)
    _, trouble, _ = settled_moment(loaded(BESIDE), Forms(), Budget(5))
    assert trouble is not None
    assert trouble.obstacle is Obstacle.UNSETTLED_UNKNOWN


def test_a_proof_by_zones_is_none_where_nobody_doubts_it() -> None:
    asked, one = question(loaded(SMALL), "d")
    cone = asked.cone(one, one.bad)
    covered = decide(exact(cone), Budget(30))
    assert isinstance(covered, Covered)
    with pytest.raises(ProofRefused):
        looked_at_again(cone, [covered], Budget(30))


SMALL = """
vehicle "T"
world
    c contact
requirements
    danger d never on_delay(c, 3 s) and not c
"""


CHATTERS_BESIDE = """
vehicle "T"

world
    a contact
    b contact
    at first a is off, b is off

harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire main   from plus

controller powered by main
    sense s_a from a_wire live
    sense s_b from b_wire live
    rule restless = not s_b and not previous(restless)
    rule late     = on_delay(s_a, 2 s)
    output o when restless and s_b

given
    always b

requirements
    danger q0 never late
    danger q1 late only after a has lasted 2 s
"""


def test_a_story_that_no_whole_vehicle_can_play() -> None:
    """A rule never settles in the only worlds that contradict what is given: what fails beside it is blocked by the
    contradiction, and what holds is proved."""
    found = check_program(loaded(CHATTERS_BESIDE))
    assert [trouble.obstacle for trouble in found.troubles] == [Obstacle.CONTRADICTION]
    q0, q1 = (verdict for verdict in found.verdicts if not verdict.builtin)
    assert (q0.kind, q0.obstacle) == (Kind.BLOCKED, Obstacle.CONTRADICTION)
    assert q1.kind is Kind.PROVED
