"""Sets of states against tables of truth, and the moments of a cone against its circuit."""

from __future__ import annotations

from itertools import product
from random import Random
from typing import TypeAlias

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import exact
from logiccheck.engine.zones.moves import Moves, Relation
from logiccheck.engine.zones.sets import Sets, States, walk
from tests.bench.families import family
from tests.engine.asking import question
from tests.oracle.loading import loaded

COUNT = 5
ROWS = list(product([False, True], repeat=COUNT))

Row: TypeAlias = tuple[bool, ...]


def random_states(sets: Sets, random: Random) -> tuple[States, set[Row]]:
    """A set, and all that is in it."""
    rows = set(random.sample(ROWS, random.randrange(len(ROWS) + 1)))
    states = sets.empty
    for row in rows:
        one = sets.all
        for number, value in enumerate(row):
            one &= sets.variable(number) if value else ~sets.variable(number)
        states |= one
    return states, rows


def members(sets: Sets, states: States) -> set[Row]:
    """All that is in a set, found by walking through its diagram."""
    values: dict[States, set[Row]] = {sets.empty: set(), sets.all: set(ROWS)}
    for part, number, then, other in walk(states):
        values[part] = {row for row in ROWS if row in values[then if row[number] else other]}
    return values[states]


@pytest.mark.parametrize("seed", range(10))
def test_sets_are_what_tables_say(seed: int) -> None:
    random, sets = Random(seed), Sets(COUNT)
    (a, in_a), (b, in_b) = (random_states(sets, random) for _ in range(2))
    assert members(sets, a) == in_a
    assert members(sets, a & b) == in_a & in_b
    assert members(sets, ~a) == set(ROWS) - in_a
    assert (a == b) == (in_a == in_b)
    gone = random.sample(range(COUNT), 2)

    def forgotten(rows: set[Row]) -> set[Row]:
        kept = {tuple(v for i, v in enumerate(row) if i not in gone) for row in rows}
        return {row for row in ROWS if tuple(v for i, v in enumerate(row) if i not in gone) in kept}

    assert members(sets, sets.forget(a, gone)) == forgotten(in_a)
    assert members(sets, sets.meet_and_forget(a, b, gone)) == forgotten(in_a & in_b)
    assert sets.forget(a, []) == a
    assert sets.meet_and_forget(a, b, []) == a & b
    assert not sets.support(sets.forget(a, gone)) & set(gone)
    one, other = gone
    fixed = {row for row in ROWS if tuple(False if i == one else v for i, v in enumerate(row)) in in_a}
    assert members(sets, sets.fixing({one: False})(a)) == fixed
    swapped = {tuple(row[{one: other, other: one}.get(i, i)] for i in range(COUNT)) for row in in_a}
    assert members(sets, sets.renaming({one: other, other: one})(a)) == swapped
    if in_a:
        some = sets.some(a)
        assert all(row in in_a for row in ROWS if all(row[i] == v for i, v in some.items()))


@pytest.mark.parametrize("name", ["count:2", "two:1", "chain:3"])
def test_an_image_is_what_the_circuit_does(name: str) -> None:
    """From a state on, at random: what the circuit leaves is in the image, and nothing that it never leaves."""
    asked, each = question(loaded(family(name)), "asked")
    cone = exact(asked.cone(each, each.bad))
    moves, random = Moves(cone, Budget(60)), Random(1)
    relation = Relation(moves, (), frozenset())
    bits = [bit.now >> 1 for bit in cone.bits]
    following = [bit.next for bit in cone.bits]
    lawful = [constraint.lit for constraint in cone.constraints]
    free = [node for node in cone.inputs if node not in bits]
    state = dict.fromkeys(bits, False)
    for _ in range(25):
        left = set()
        for values in product([False, True], repeat=len(free)):
            inputs = dict(zip(free, values, strict=True))
            after = cone.aig.evaluate([*following, *lawful], {**state, **inputs}, cone.order)
            idle = any(inputs[c.due >> 1] and not cone.aig.evaluate([c.run], state)[0] for c in cone.clocks)
            if not idle and all(after[len(bits) :]):
                left.add(tuple(after[: len(bits)]))
        image = relation.image(union(moves, [state]))
        assert image == union(moves, [dict(zip(bits, row, strict=True)) for row in left])
        state = dict(zip(bits, random.choice(sorted(left)), strict=True))


def union(moves: Moves, states: list[dict[int, bool]]) -> States:
    """The set of just these states."""
    whole = moves.sets.empty
    for state in states:
        alone = moves.sets.all
        for node, value in state.items():
            variable = moves.sets.variable(moves.before[node])
            alone &= variable if value else ~variable
        whole |= alone
    return whole
