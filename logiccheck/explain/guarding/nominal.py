"""A vehicle whose timers all last their nominal time: what it can do, the vehicle itself can do."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.lang.program import (
    Bistable,
    Blink,
    Edge,
    Expr,
    Impulse,
    Previous,
    Program,
    Rule,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.rebuild import replace_leaves


def nominal(program: Program) -> Program:
    """The same without any tolerance of relays and rules; senses and the start of the box keep theirs."""
    relays = tuple(replace(relay, coil=_exact(relay.coil)) for relay in program.relays)
    box = program.box
    if box is not None:
        rules = (
            replace(rule, expr=_exact(rule.expr))
            if isinstance(rule, Rule)
            else replace(rule, command=_exact(rule.command))
            for rule in box.rules
        )
        box = replace(box, rules=tuple(rules))
    return replace(program, relays=relays, box=box)


def _exact(expr: Expr) -> Expr:
    def change(leaf: Expr) -> Expr:
        match leaf:
            case Timer(kind=TimerKind.FILTER):
                return leaf  # that of a sense
            case Timer():
                return replace(leaf, x=_exact(leaf.x), window=_middle(leaf.window))
            case Blink():
                return replace(leaf, x=_exact(leaf.x), on=_middle(leaf.on), off=_middle(leaf.off))
            case Edge() | Previous():
                return replace(leaf, x=_exact(leaf.x))
            case Bistable():
                return replace(leaf, set=_exact(leaf.set), reset=_exact(leaf.reset))
            case Impulse():
                return replace(leaf, x=_exact(leaf.x), reset=_exact(leaf.reset))
            case _:
                return leaf

    return replace_leaves(expr, change)


def _middle(window: Window) -> Window:
    return Window(window.nominal, window.nominal, window.nominal)
