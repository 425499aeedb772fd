"""When two conditions say the same up to the order of their parts."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TypeAlias, assert_never

from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Form,
    Impulse,
    Never,
    NeverLonger,
    Not,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    Xor,
)

Shape: TypeAlias = tuple[object, ...]


def shape(expr: Expr) -> Shape:
    """Equal for conditions that differ only in places, in keys of what remembers, in the order of parts that may change
    places, in brackets and in double negation."""
    match expr:
        case Const(value=value):
            return ("const", value)
        case Signal(kind=kind, name=name):
            return ("signal", kind.value, name)
        case Position(name=name, indices=indices):
            return ("position", name, tuple(sorted(indices)))
        case Compare():
            return ("compare", expr.name, expr.sense, expr.op.value, expr.bound)
        case Not(x=Not(x=x)):
            return shape(x)
        case Not(x=x):
            return ("not", shape(x))
        case And() | Or():
            return (type(expr).__name__, *_sorted(_flat(expr)))
        case AtMostOne(parts=parts):
            return ("at most one", *_sorted(parts))
        case Xor(left=left, right=right):
            return ("xor", *_sorted((left, right)))
        case _:
            return _remembering(expr)


def _remembering(expr: Timer | Blink | Bistable | Impulse | Edge | Previous) -> Shape:
    match expr:
        case Timer():
            return ("timer", expr.kind.value, expr.window, shape(expr.x))
        case Blink():
            return ("blink", expr.on, expr.off, shape(expr.x))
        case Bistable():
            return ("bistable", shape(expr.set), shape(expr.reset), expr.set_wins, expr.retained)
        case Impulse():
            return ("impulse", shape(expr.x), shape(expr.reset), expr.retained)
        case Edge():
            return ("edge", expr.rising, shape(expr.x))
        case Previous():
            return ("previous", shape(expr.x))
        case _:
            assert_never(expr)


def form_shape(form: Form) -> Shape:
    """The same for whole requirements; wording does not count, nor `while` where `and` says the same."""
    if isinstance(form, Never | NeverLonger) and form.r is not None:
        form = replace(form, p=And((form.p, form.r)), r=None)
    parts: list[object] = [type(form).__name__]
    for each in fields(form):
        value = getattr(form, each.name)
        if each.name != "always":
            parts.append(shape(value) if isinstance(value, Expr) else value)
    return tuple(parts)


def _flat(expr: And | Or) -> tuple[Expr, ...]:
    parts: list[Expr] = []
    for part in expr.parts:
        parts += _flat(part) if isinstance(part, And | Or) and type(part) is type(expr) else (part,)
    return tuple(parts)


def _sorted(parts: tuple[Expr, ...]) -> list[Shape]:
    return sorted(map(shape, parts), key=repr)
