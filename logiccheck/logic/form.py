"""Boolean forms: what a rule, output, sense or requirement means, as a SymPy expression over the places where it names
something.

SymPy folds and sorts what it builds, so each occurrence of a name is a symbol of its own; the form ties the symbol to
what stands there (with its place in the text) outside of SymPy. What stands at a place (a signal, a comparison, a
timer) is opaque to SymPy: its own operands have forms of their own.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from typing import Protocol, TypeVar

from sympy import Symbol
from sympy.logic.boolalg import And as SymAnd
from sympy.logic.boolalg import Boolean, BooleanFalse, BooleanTrue
from sympy.logic.boolalg import Not as SymNot
from sympy.logic.boolalg import Or as SymOr
from sympy.logic.boolalg import Xor as SymXor
from sympy.logic.boolalg import false as sym_false
from sympy.logic.boolalg import true as sym_true

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import And, AtMostOne, Const, Expr, Not, Or, Xor

T = TypeVar("T")


@frozen
class Form:
    """`expr` is over the symbols of `places`; `places[i]` is what stands at the i-th place, in the order of the
    text."""

    expr: Boolean
    places: tuple[Expr, ...]

    def place_of(self, symbol: Symbol) -> int:
        """The number of the place that this symbol stands for."""
        return int(symbol.name[1:])


class Algebra(Protocol[T]):
    """Anything that has the four connectives: truth values, and-inverter literals, texts."""

    def constant(self, value: bool) -> T: ...
    def negate(self, x: T) -> T: ...
    def all_of(self, parts: list[T]) -> T: ...
    def any_of(self, parts: list[T]) -> T: ...
    def differ(self, left: T, right: T) -> T: ...


def form_of(expr: Expr) -> Form:
    """The form of an expression: its connectives in SymPy, everything else a place."""
    places: list[Expr] = []

    def build(e: Expr) -> Boolean:
        match e:
            case Const():
                return sym_true if e.value else sym_false
            case Not():
                return SymNot(build(e.x))
            case And():
                return SymAnd(*[build(p) for p in e.parts])
            case Or():
                return SymOr(*[build(p) for p in e.parts])
            case Xor():
                return SymXor(build(e.left), build(e.right))
            case AtMostOne():
                return SymAnd(*[SymNot(SymAnd(a, b)) for a, b in combinations([build(p) for p in e.parts], 2)])
            case _:
                places.append(e)
                return Symbol(f"p{len(places) - 1:05d}")

    return Form(build(expr), tuple(places))


def lift(form: Form, leaf: Callable[[Expr], T], algebra: Algebra[T]) -> T:
    """The value of a form in any algebra: `leaf` gives the value of what stands at a place."""
    values = [leaf(place) for place in form.places]

    def walk(e: Boolean) -> T:
        if isinstance(e, Symbol):
            return values[form.place_of(e)]
        if isinstance(e, BooleanTrue | BooleanFalse):
            return algebra.constant(bool(e))
        if isinstance(e, SymNot):
            return algebra.negate(walk(e.args[0]))
        parts = [walk(a) for a in sorted(e.args, key=lambda a: first_place(form, a))]
        if isinstance(e, SymAnd):
            return algebra.all_of(parts)
        if isinstance(e, SymOr):
            return algebra.any_of(parts)
        if isinstance(e, SymXor):
            value = parts[0]
            for part in parts[1:]:
                value = algebra.differ(value, part)
            return value
        raise AssertionError(type(e))

    return walk(form.expr)


def first_place(form: Form, e: Boolean) -> int:
    """The number of the first place that a part of a form names (parts without any come last)."""
    return min((form.place_of(s) for s in e.free_symbols), default=len(form.places))
