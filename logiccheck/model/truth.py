"""The truth of an expression at one instant, once the truth of its leaves is known; no memory moves here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import fields
from fractions import Fraction
from itertools import repeat
from typing import TypeAlias, TypeGuard, assert_never

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
    Given,
    Impulse,
    Not,
    Op,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    TimerKind,
    Xor,
)

Node: TypeAlias = Timer | Blink | Bistable | Impulse | Edge | Previous  # an expression that remembers
Leaf: TypeAlias = Signal | Position | Compare | Node


def truth(expr: Expr, leaf: Callable[[Leaf], bool]) -> bool:
    """What the connectives make of the leaves; a remembering node is a leaf here, nothing is looked up inside it."""
    match expr:  # what is met most often comes first: most of the time of a story that is played goes here
        case Signal():
            return leaf(expr)
        case And(parts=parts):
            return all(map(truth, parts, repeat(leaf)))
        case Or(parts=parts):
            return any(map(truth, parts, repeat(leaf)))
        case Not(x=x):
            return not truth(x, leaf)
        case Position() | Compare() | Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous():
            return leaf(expr)
        case Xor(left=left, right=right):
            return truth(left, leaf) != truth(right, leaf)
        case AtMostOne(parts=parts):
            return sum(map(truth, parts, repeat(leaf))) <= 1
        case Const(value=value):
            return value
        case _:
            assert_never(expr)


def compare(value: int | Fraction, op: Op, bound: Fraction) -> bool:
    match op:
        case Op.LT:
            return value < bound
        case Op.LE:
            return value <= bound
        case Op.GT:
            return value > bound
        case Op.GE:
            return value >= bound
        case Op.EQ:
            return value == bound
        case Op.NE:
            return value != bound
        case _:
            assert_never(op)


def operands(expr: Expr) -> tuple[Expr, ...]:
    """The expressions directly inside this one."""
    match expr:
        case Const() | Signal() | Position() | Compare():
            return ()
        case Not(x=x) | Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            return (x,)
        case And(parts=parts) | Or(parts=parts) | AtMostOne(parts=parts):
            return parts
        case Xor(left=left, right=right):
            return (left, right)
        case Bistable(set=first, reset=reset) | Impulse(x=first, reset=reset):
            return (first, reset)
        case _:
            assert_never(expr)


def subexpressions(expr: Expr) -> Iterator[Expr]:
    """All expressions inside this one and itself, inner ones first."""
    for part in operands(expr):
        yield from subexpressions(part)
    yield expr


def all_nodes(roots: Iterable[Expr]) -> tuple[Node, ...]:
    """Every remembering node inside these expressions, filters of senses left out."""
    parts = (part for root in roots for part in subexpressions(root))
    return tuple(part for part in parts if isinstance(part, Node) and not is_filter(part))


def expressions_of(item: Form | Given) -> tuple[Expr, ...]:
    """The expressions a requirement or an assumption is made of."""
    values = (getattr(item, each.name) for each in fields(item))
    return tuple(value for value in values if isinstance(value, Expr))


def is_filter(expr: Expr) -> TypeGuard[Timer]:
    """A filter belongs to the sense it stands on, wherever the expression that holds it is written."""
    return isinstance(expr, Timer) and expr.kind is TimerKind.FILTER


def remembering(expr: Expr) -> tuple[Node, ...]:
    """The nodes that move when `expr` is evaluated, inner ones first: not what is inside a `previous`, no filter."""
    inner: tuple[Node, ...] = ()
    if isinstance(expr, Previous) or is_filter(expr):
        return inner
    for part in operands(expr):
        inner += remembering(part)
    return (*inner, expr) if isinstance(expr, Timer | Blink | Bistable | Impulse | Edge) else inner
