"""The ways in which a rule is true: each with nothing to leave out, none too many, together all of it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from sympy import Symbol
from sympy.logic.boolalg import And, Boolean, Not

from logiccheck.logic.ways import MOST_TERMS, Term, ways
from tests.logic.cubes import Sums, formula, literals
from tests.logic.rules import box
from tests.logic.test_published import FUNCTIONS, Function
from tests.logic.test_simplify import LETTERS, NAMES, forms, table


def conjunction(term: Term) -> Boolean:
    return And(*(symbol if positive else Not(symbol) for symbol, positive in term))


def true_rows(expr: Boolean, symbols: list[Symbol]) -> set[int]:
    return {row for row, value in enumerate(table(expr, symbols)) if value}


@settings(max_examples=60, deadline=None)
@given(forms(4, 10))
def test_minimal_terms_that_cover_it(expr: Boolean) -> None:
    """Row by row, with four names."""
    found = ways(expr)
    assert found is not None
    rows = [true_rows(conjunction(term), NAMES[:4]) for term in found]
    wanted = true_rows(expr, NAMES[:4])
    assert set().union(*rows) == wanted
    for i, term in enumerate(found):
        assert not all(row in set().union(*rows[:i], *rows[i + 1 :]) for row in rows[i])
        for entry in term:
            assert not true_rows(conjunction(term - {entry}), NAMES[:4]) <= wanted
    assert [len(term) for term in found] == sorted(len(term) for term in found)


@pytest.mark.parametrize("row", [row for row in FUNCTIONS if not row.free], ids=lambda row: row.number)
def test_published_functions(row: Function) -> None:
    """Only primes, the essential ones among them, and as many as the published minimum has where all are essential."""
    found = ways(formula(row.sums(row.rows)))
    assert found is not None
    terms = {frozenset(f"{symbol}" if positive else f"{symbol}'" for symbol, positive in term) for term in found}
    primes, essential = ({frozenset(literals(cube)) for cube in text.split()} for text in (row.primes, row.essential))
    assert essential <= terms <= primes
    assert Sums(row.letters).of("".join(term) for term in terms) == Sums(row.letters).of(row.sums(row.rows))
    if essential == {frozenset(literals(cube)) for cube in row.covers[0].split()}:
        assert len(found) == len(row.covers[0].split())


SHOWN = [
    ("a and b or c", ("c", "a and b"), 2),
    ("a xor b", ("a and not b", "not a and b"), 2),
    ("a or not a", ("true",), 1),
    ("a and not a", (), 0),
    ("at most one of (a, b, c)", ("not a and not b", "not a and not c", "not b and not c"), 3),
    ("not (a and (b or on_delay(a, 1 s)))", ("not a", "not b and not on_delay(a, 1 s)"), 2),
]


@pytest.mark.parametrize(("text", "texts", "count"), SHOWN, ids=[row[0] for row in SHOWN])
def test_in_words(text: str, texts: tuple[str, ...], count: int) -> None:
    """Shortest first."""
    shown = box({"r": text}).show("r")
    assert (set(shown.ways), shown.all_ways) == (set(texts), count)
    assert [way.count("and") for way in shown.ways] == sorted(way.count("and") for way in shown.ways)


def test_too_many() -> None:
    """Nine choices of two are 512 terms."""
    names = LETTERS[:18]
    text = " and ".join(f"({a} or {b})" for a, b in zip(names[::2], names[1::2], strict=True))
    assert MOST_TERMS < 2**9
    shown = box({"r1": text}, tuple(names)).show("r1")
    assert (shown.ways, shown.all_ways) == ((), None)
