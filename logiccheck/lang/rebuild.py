"""An expression built anew with other leaves in the same places, and a line with another expression."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from logiccheck.lang.program import And, AtMostOne, Expr, Not, Or, Output, Rule, Xor


def replace_leaves(expr: Expr, change: Callable[[Expr], Expr]) -> Expr:
    """The same connectives over changed operands; what is no connective is a leaf, timers and memory too."""
    match expr:
        case Not():
            return replace(expr, x=replace_leaves(expr.x, change))
        case And() | Or() | AtMostOne():
            return replace(expr, parts=tuple(replace_leaves(p, change) for p in expr.parts))
        case Xor():
            return replace(expr, left=replace_leaves(expr.left, change), right=replace_leaves(expr.right, change))
        case _:
            return change(expr)


def with_condition(rule: Rule | Output, expr: Expr) -> Rule | Output:
    """The same line with this condition, or command."""
    return replace(rule, expr=expr) if isinstance(rule, Rule) else replace(rule, command=expr)
