"""Walks over resolved expressions: children, all parts, the names they read, the memory they hold."""

from __future__ import annotations

from collections.abc import Iterator
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
    Impulse,
    Not,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    Xor,
)

Leaf: TypeAlias = Signal | Position | Compare
Memory: TypeAlias = Timer | Blink | Bistable | Impulse | Edge | Previous


def children(expr: Expr) -> tuple[Expr, ...]:
    """The operands of an expression, in the order written."""
    match expr:
        case Const() | Signal() | Position() | Compare():
            return ()
        case Not(x) | Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            return (x,)
        case And(parts) | Or(parts) | AtMostOne(parts):
            return parts
        case Xor(left, right):
            return (left, right)
        case Bistable(set=set_, reset=reset):
            return (set_, reset)
        case Impulse(x=x, reset=reset):
            return (x, reset)
    assert_never(expr)


def subexpressions(expr: Expr) -> Iterator[Expr]:
    """The expression and everything inside it: each before its operands, operands in the order written."""
    todo = [expr]
    while todo:
        node = todo.pop()
        yield node
        todo.extend(reversed(children(node)))


def references(expr: Expr) -> Iterator[Leaf]:
    """The signals, positions and comparisons an expression reads, in the order written, each as often as it stands."""
    return (node for node in subexpressions(expr) if isinstance(node, Leaf))


def memory(expr: Expr) -> Iterator[Memory]:
    """The parts of an expression that have a key, outermost first."""
    return (node for node in subexpressions(expr) if isinstance(node, Memory))
