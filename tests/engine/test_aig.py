"""And-inverter graphs against truth tables."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit

INPUTS = 4
ROWS = 1 << INPUTS

OPERATIONS: dict[str, tuple[int, Callable[..., bool]]] = {
    "both": (2, lambda a, b: a and b),
    "either": (2, lambda a, b: a or b),
    "implies": (2, lambda a, b: not a or b),
    "same": (2, lambda a, b: a is b),
    "differ": (2, lambda a, b: a is not b),
    "choose": (3, lambda a, b, c: b if a else c),
    "negate": (1, lambda a: not a),
}
MANY: dict[str, Callable[[list[bool]], bool]] = {"all_of": all, "any_of": any}


def inputs(aig: Aig) -> list[Lit]:
    return [aig.new_input(f"x{i}") for i in range(INPUTS)]


def row(number: int, lits: list[Lit]) -> dict[int, bool]:
    """The assignment in which input i is bit i of the number."""
    return {lit >> 1: bool(number >> i & 1) for i, lit in enumerate(lits)}


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.sampled_from([*OPERATIONS, *MANY]), st.lists(st.integers(0, 99), max_size=4)), max_size=25)
)
def test_every_operation_has_its_truth_table(plan: list[tuple[str, list[int]]]) -> None:
    """Each step combines some of what is there already; all that is made has the right value in all 16 rows."""
    aig = Aig()
    lits = inputs(aig)
    made: list[tuple[Lit, list[bool]]] = [(FALSE, [False] * ROWS), (TRUE, [True] * ROWS)]
    made += [(lit, [bool(k >> i & 1) for k in range(ROWS)]) for i, lit in enumerate(lits)]
    for name, picks in plan:
        count = OPERATIONS[name][0] if name in OPERATIONS else len(picks)
        chosen = [made[pick % len(made)] for pick in (*picks, *range(count))][:count]
        parts, columns = [lit for lit, _ in chosen], [column for _, column in chosen]
        if name in MANY:
            lit, values = getattr(aig, name)(parts), [MANY[name]([c[k] for c in columns]) for k in range(ROWS)]
        else:
            lit = getattr(aig, name)(*parts)
            values = [OPERATIONS[name][1](*(c[k] for c in columns)) for k in range(ROWS)]
        made.append((lit, values))
    wanted = [lit for lit, _ in made]
    for k in range(ROWS):
        found = aig.evaluate(wanted, row(k, lits))
        assert found == aig.evaluate(wanted, row(k, lits), aig.cone(wanted)) == [column[k] for _, column in made]


def test_what_is_the_same_is_made_once() -> None:
    """Operands in any order; and what needs no gate gets none."""
    aig = Aig()
    a, b, *_ = inputs(aig)
    assert aig.both(a, b) == aig.both(b, a)
    assert aig.either(a, b) == aig.negate(aig.both(a ^ 1, b ^ 1))
    nodes = len(aig.operands)
    assert [aig.both(a, a), aig.both(a, TRUE), aig.both(a, FALSE), aig.both(a, a ^ 1)] == [a, a, FALSE, FALSE]
    assert [aig.all_of([]), aig.any_of([]), aig.differ(a, FALSE), aig.choose(TRUE, a, b)] == [TRUE, FALSE, a, a]
    assert len(aig.operands) == nodes


def test_the_cone_holds_what_is_needed_and_no_more() -> None:
    """Operands come before what uses them; the constant is not in it."""
    aig = Aig()
    a, b, c, d = inputs(aig)
    wanted, other = aig.either(aig.both(a, b), c), aig.both(c, d)
    cone = aig.cone([wanted, TRUE])
    assert {a >> 1, b >> 1, c >> 1} < set(cone)
    assert not {d >> 1, other >> 1, 0} & set(cone)
    for place, node in enumerate(cone):
        pair = aig.operands[node]
        assert pair is None or {lit >> 1 for lit in pair} <= set(cone[:place])


@pytest.mark.parametrize(("a", "b"), [*product([False, True], repeat=2)])
def test_inputs_that_are_not_named_are_false(a: bool, b: bool) -> None:
    """Both as themselves and negated."""
    aig = Aig()
    x, y, z, _ = inputs(aig)
    assignment = {x >> 1: a, y >> 1: b}
    assert aig.evaluate([aig.both(x, y ^ 1), z, z ^ 1], assignment) == [a and not b, False, True]
