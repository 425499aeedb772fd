"""The ways in which an expression is true: minimal terms that together say the same, as long as they are few.

A term is a conjunction of names and negated names; it is minimal (a prime implicant) when nothing can be left out of
it. Terms that the others cover are left out. What each name stands for is not looked into: a way may name things that
cannot be so together.
Reference: W. V. Quine, "A way to simplify truth functions", Amer. Math. Monthly 62, 1955.
"""

from __future__ import annotations

from itertools import product
from typing import TypeAlias

from sympy import Symbol
from sympy.logic.boolalg import And, Boolean, BooleanFalse, BooleanTrue, Not, Or, Xor, to_nnf

from logiccheck.logic.simplify import MOST_FOR_SYMPY, Columns, is_small

Term: TypeAlias = frozenset[tuple[Symbol, bool]]

MOST_TERMS = 256


def ways(expr: Boolean) -> list[Term] | None:
    """Minimal terms that cover the expression, shortest first; None: too many, or too many names, to decide."""
    variables = sorted(expr.free_symbols, key=str)
    if not is_small(expr) or (expr.has(Xor) and len(variables) > MOST_FOR_SYMPY):
        return None
    terms = _terms(to_nnf(expr, simplify=False))
    if terms is None:
        return None
    columns = Columns(variables)
    meaning = columns.table(expr)
    minimal = sorted({_shrunk(t, columns, meaning) for t in terms if _table(t, columns)}, key=_order)
    return _needed(minimal, columns, meaning)


def _order(term: Term) -> tuple[int, list[tuple[str, bool]]]:
    return len(term), sorted((str(symbol), not positive) for symbol, positive in term)


def _terms(expr: Boolean) -> set[Term] | None:
    """The expression multiplied out, terms that others absorb left out; None when that becomes too much."""
    if isinstance(expr, BooleanTrue | BooleanFalse):
        return {frozenset()} if expr else set()
    if isinstance(expr, Symbol):
        return {frozenset({(expr, True)})}
    if isinstance(expr, Not):
        return {frozenset({(expr.args[0], False)})}
    parts = [_terms(a) for a in expr.args]
    known = [p for p in parts if p is not None]
    if len(known) < len(parts):
        return None
    if isinstance(expr, Or):
        return _absorbed({term for part in known for term in part})
    assert isinstance(expr, And)
    result: set[Term] = {frozenset()}
    for part in known:
        result = _absorbed({a | b for a, b in product(result, part)})
        if len(result) > MOST_TERMS:
            return None
    return result


def _absorbed(terms: set[Term]) -> set[Term]:
    possible = {t for t in terms if not any((symbol, not positive) in t for symbol, positive in t)}
    return {t for t in possible if not any(other < t for other in possible)}


def _table(term: Term, columns: Columns) -> int:
    table = columns.ones
    for symbol, positive in term:
        table &= columns.of[symbol] if positive else columns.ones ^ columns.of[symbol]
    return table


def _shrunk(term: Term, columns: Columns, meaning: int) -> Term:
    """Leaves names out of a term as long as it is still an implicant."""
    for entry in sorted(term, key=lambda e: str(e[0])):
        smaller = term - {entry}
        if _table(smaller, columns) & ~meaning == 0:
            term = smaller
    return term


def _needed(terms: list[Term], columns: Columns, meaning: int) -> list[Term]:
    """Leaves out terms that the others cover, longest first."""
    kept = list(terms)
    for term in reversed(terms):
        covered = 0
        for other in kept:
            if other is not term:
                covered |= _table(other, columns)
        if covered == meaning:
            kept = [other for other in kept if other is not term]
    return kept
