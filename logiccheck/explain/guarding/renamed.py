"""Expressions of the second of two vehicles in one program: names and memory of its own, where it has its own."""

from __future__ import annotations

from collections.abc import Callable, Set
from dataclasses import replace

from logiccheck.lang.program import Bistable, Blink, Compare, Edge, Expr, Impulse, Previous, Signal, SignalKind, Timer
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import memory
from logiccheck.model.truth import is_filter


def second(name: str) -> str:
    """What the second vehicle calls its own; nobody can write such a name."""
    return f"{name}, edited"


def once(key: str) -> str:
    """The name of the rule that is the timer of this key in both vehicles."""
    return f"{key}, in both"


def renamed(expr: Expr, own: Set[str]) -> Expr:
    """The expression as the second vehicle has it; `own` are the names of which it has its own."""

    def change(leaf: Expr) -> Expr:
        match leaf:
            case Signal(name=name):
                return replace(leaf, name=second(name)) if name in own else leaf
            case Compare(name=name, sense=True):
                return replace(leaf, name=second(name)) if name in own else leaf
            case Timer(x=x) if is_filter(leaf):
                inner = renamed(x, own)  # a filter is that of its sense, whoever compares
                return leaf if inner == x else replace(leaf, x=inner, key=second(leaf.key))
            case Timer() | Blink() | Edge() | Previous():
                return replace(leaf, x=renamed(leaf.x, own), key=second(leaf.key))
            case Bistable():
                set_, reset = renamed(leaf.set, own), renamed(leaf.reset, own)
                return replace(leaf, set=set_, reset=reset, key=second(leaf.key))
            case Impulse():
                x, reset = renamed(leaf.x, own), renamed(leaf.reset, own)
                return replace(leaf, x=x, reset=reset, key=second(leaf.key))
            case _:
                return leaf

    return replace_leaves(expr, change)


def inside(expr: Expr, change: Callable[[Expr], Expr | None]) -> Expr:
    """The expression with each part for which `change` gives another replaced by that, the widest first; what
    `previous` looks at stays as it is."""

    def leaf(part: Expr) -> Expr:
        other = change(part)
        if other is not None:
            return other
        match part:
            case Timer() | Blink() | Edge():
                return replace(part, x=inside(part.x, change))
            case Bistable():
                return replace(part, set=inside(part.set, change), reset=inside(part.reset, change))
            case Impulse():
                return replace(part, x=inside(part.x, change), reset=inside(part.reset, change))
            case _:
                return part

    return replace_leaves(expr, leaf)


def remembers(expr: Expr) -> bool:
    """Whether something in it remembers, filters of senses aside."""
    return any(not is_filter(node) for node in memory(expr))


def rule_signal(key: str) -> Signal:
    """The timer of this key, as both vehicles read it."""
    return Signal(SignalKind.RULE, once(key))
