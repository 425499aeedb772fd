"""A simplified rule means the same, loses what adds nothing, and says so where it is too large to tell."""

from __future__ import annotations

import signal
import time
from collections.abc import Iterator
from contextlib import contextmanager
from string import ascii_lowercase
from types import FrameType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Symbol
from sympy.logic.boolalg import And, Boolean, Not, Or, Xor
from sympy.logic.boolalg import false as sym_false
from sympy.logic.boolalg import true as sym_true

from logiccheck.logic.show import TOO_LARGE
from logiccheck.logic.simplify import MOST_VARIABLES, Columns, simplified, size
from tests.logic.rules import box

LETTERS = ascii_lowercase.replace("m", "")  # that is the number sense
NAMES = [Symbol(name) for name in LETTERS]


def value(expr: Boolean, true: set[Symbol]) -> bool:
    """The truth of an expression where just these symbols are true, one connective after the other."""
    if isinstance(expr, Symbol):
        return expr in true
    parts = [value(part, true) for part in expr.args]
    if isinstance(expr, Not):
        return not parts[0]
    if isinstance(expr, And):
        return all(parts)
    if isinstance(expr, Or):
        return any(parts)
    if isinstance(expr, Xor):
        return sum(parts) % 2 == 1
    assert expr in (sym_true, sym_false)
    return expr is sym_true


def table(expr: Boolean, symbols: list[Symbol]) -> list[bool]:
    """All its values; in row k the symbol with number i is bit i of k."""
    rows = range(1 << len(symbols))
    return [value(expr, {s for i, s in enumerate(symbols) if row >> i & 1}) for row in rows]


def forms(count: int, leaves: int) -> st.SearchStrategy[Boolean]:
    """Expressions over that many symbols."""
    atoms = st.sampled_from([*NAMES[:count], sym_true, sym_false])

    def joined(parts: st.SearchStrategy[Boolean]) -> st.SearchStrategy[Boolean]:
        several = st.lists(parts, min_size=2, max_size=4)
        words = st.sampled_from([And, Or, Xor])
        return st.one_of(st.builds(lambda word, args: word(*args), words, several), parts.map(Not))

    return st.recursive(atoms, joined, max_leaves=leaves)


@settings(max_examples=100, deadline=None)
@given(forms(6, 14))
def test_the_truth_table_stays(expr: Boolean) -> None:
    """Whatever is left out, all 64 values are the same, and the text gets no longer."""
    shorter = simplified(expr)
    assert shorter is not None
    assert table(shorter, NAMES[:6]) == table(expr, NAMES[:6])
    assert size(shorter) <= size(expr)


@settings(max_examples=100, deadline=None)
@given(forms(6, 14))
def test_columns_are_truth_tables(expr: Boolean) -> None:
    """Row by row."""
    rows = Columns(NAMES[:6]).table(expr)
    assert [bool(rows >> row & 1) for row in range(64)] == table(expr, NAMES[:6])


@settings(max_examples=12, deadline=None)
@given(forms(12, 40))
def test_it_comes_back_in_time(expr: Boolean) -> None:
    """Also above the size at which the minimal form is looked for."""
    begin = time.monotonic()
    shorter = simplified(expr)
    assert time.monotonic() - begin < 5
    assert shorter is not None
    columns = Columns(NAMES[:12])
    assert columns.table(shorter) == columns.table(expr)


def chain(count: int) -> str:
    """A rule over that many names, in pairs of which no part can be left out."""
    names = LETTERS[:count]
    pairs = [" and ".join(names[i : i + 2]) for i in range(0, count, 2)]
    return " or ".join(pairs)


@pytest.mark.parametrize("count", [6, 8, 9, 12, MOST_VARIABLES])
def test_one_term_that_adds_nothing_is_lost(count: int) -> None:
    """It is absorbed by the first pair; everything else stays as it was written."""
    begin = time.monotonic()
    one = box({"rule_1": f"{chain(count)} or {LETTERS[count - 1]} and a and b"}, tuple(LETTERS[:count]))
    assert one.show("rule_1").simplified == chain(count)
    assert time.monotonic() - begin < 20


def test_too_large() -> None:
    """One name more than can be held in a table: said, and left as it is written."""
    names = LETTERS[: MOST_VARIABLES + 1]
    text = f"{chain(MOST_VARIABLES)} or {names[-1]} and a and b"
    shown = box({"rule_1": text}, tuple(names)).show("rule_1")
    assert (shown.written, shown.unfolded, shown.simplified) == (text, text, TOO_LARGE)
    assert shown.simplified == "left as written: too large"


def test_names_are_counted_and_not_places() -> None:
    """Thirty places of three names are small."""
    assert box({"rule_1": " or ".join(["a and b", "b and c", "a"] * 6)}).show("rule_1").simplified == "a or b and c"


@pytest.mark.parametrize(
    ("text", "simple"),
    [
        ("a or not a", "true"),
        ("a and not a", "false"),
        ("a xor b xor a", "b"),
        ("a and (a or b)", "a"),
        ("a or not a and b", "a or b"),
        ("at most one of (a, b)", "not (a and b)"),
    ],
)
def test_in_words(text: str, simple: str) -> None:
    """Each thing that is named is one unknown, wherever it stands."""
    assert box({"r": text}).show("r").simplified == simple


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """Interrupts what does not come back by then."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TimeoutError(f"not back after {seconds} s")

    old = signal.signal(signal.SIGALRM, stop)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, old)


def test_an_exclusive_or_of_many_names() -> None:
    """There is nothing to leave out."""
    text = " xor ".join(LETTERS[:14])
    one = box({"r1": text}, tuple(LETTERS[:14]))
    with at_most(1):
        assert one.show("r1").simplified == text


def test_at_most_one_of_many_names() -> None:
    """Its 190 pairs over 20 names are more than is tried; that is said, and at once."""
    names = LETTERS[:MOST_VARIABLES]
    one = box({"r1": f"at most one of ({', '.join(names)})"}, tuple(names))
    with at_most(3):
        assert one.show("r1").simplified == TOO_LARGE
