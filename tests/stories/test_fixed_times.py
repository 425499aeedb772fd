"""Whether one time for each timer would do: elimination against trying all numbers, and lengths of runs likewise."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.budget import Budget
from logiccheck.engine.fixed import with_fixed_times
from logiccheck.engine.ranges import Row, TooMany, choose
from logiccheck.engine.timing import Edge, earliest, edges_of
from logiccheck.model.circuit.system import Clock
from logiccheck.model.story import Answer
from tests.engine.asking import Found, stories
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

MOST = 6  # the unknown numbers go from 0 to here


def holds(row: Row, values: tuple[float, ...]) -> bool:
    total = sum(part * value for part, value in zip(row.parts, values, strict=True)) + row.rest
    return total > 0 if row.more else total >= 0


@st.composite
def systems(draw: st.DrawFn) -> list[Row]:
    """Up to three unknown numbers, each in its window, and a few inequalities."""
    count = draw(st.integers(1, 3))
    part, rest = st.integers(-2, 2), st.integers(-8, 8)
    rows = draw(st.lists(st.builds(Row, st.tuples(*[part] * count), rest, st.booleans()), max_size=5))
    for k in range(count):
        alone = tuple(int(k == j) for j in range(count))
        rows += [Row(alone, 0), Row(tuple(-x for x in alone), MOST)]
    return rows


@settings(max_examples=500, deadline=None)
@given(systems(), st.data())
def test_choose(rows: list[Row], data: st.DataObject) -> None:
    """What is chosen meets all rows, and is what was wanted where that does; where nothing is, nothing could be."""
    count = len(rows[0].parts)
    wanted = data.draw(st.tuples(*[st.integers(0, MOST)] * count))
    halves = [half / 2 for half in range(2 * MOST + 1)]
    possible = [values for values in product(halves, repeat=count) if all(holds(row, values) for row in rows)]
    try:
        chosen = choose(rows, wanted)
    except TooMany:
        return
    if chosen is None:
        assert not possible
        return
    assert all(holds(row, tuple(chosen)) for row in rows)
    if wanted in possible:
        assert tuple(chosen) == wanted


def tolerant(found: Found) -> list[Clock]:
    return [clock for clock in found.cone.clocks if clock.lo < clock.hi]


def feasible(found: Found, lengths: tuple[int, ...]) -> bool:
    """Whether the same moments are possible when each window is cut to one length."""
    clocks = dict(zip((clock.key for clock in tolerant(found)), lengths, strict=True))
    cut = [replace(c, lo=clocks[c.key], hi=clocks[c.key]) if c.key in clocks else c for c in found.cone.clocks]
    edges: list[Edge] = edges_of(replace(found.cone, clocks=cut), found.trace)
    return earliest(len(found.trace), edges)[0] is not None


def test_lengths_of_runs() -> None:
    """Nine lengths in each window, in the stories of random programs."""
    seen: Counter[Answer | None] = Counter()
    nominal = 0
    for seed in range(80):
        text = random_program(seed).text
        if " +- " not in text and not re.search(r"from \d+ s to", text):
            continue
        for found in stories(loaded(text)):
            clocks, story = tolerant(found), found.story
            fixed = with_fixed_times(found.cone, found.trace, story, Budget(60))
            seen[fixed.answer if fixed else None] += 1
            if fixed is None or len(clocks) > 2:
                continue
            tried = [[clock.lo + (clock.hi - clock.lo) * i // 8 for i in range(9)] for clock in clocks]
            some = any(feasible(found, lengths) for lengths in product(*tried))
            assert not some or fixed.answer is Answer.YES
            if fixed.answer is Answer.YES:
                usual = [clock.nominal for clock in clocks]
                assert feasible(found, tuple(usual)) is all(
                    fixed.lengths.get(clock.key, clock.nominal) == clock.nominal for clock in clocks
                )
                nominal += feasible(found, tuple(usual))
    assert seen[Answer.YES] > nominal > 3, (seen, nominal)
    assert seen[Answer.OPEN] == 0
