"""The filtered comparisons of a program: memory of the box, wherever in the program they are written."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.lang.program import Expr, Program, Rule, Timer, TimerKind
from logiccheck.lang.walk import subexpressions


def comparison_filters(program: Program) -> dict[str, Timer]:
    """By key, each filter over a comparison of a number sense; the same comparison is one filter."""
    found: dict[str, Timer] = {}
    for expr in _expressions(program):
        for e in subexpressions(expr):
            if isinstance(e, Timer) and e.kind is TimerKind.FILTER:
                found[e.key] = e
    return found


def _expressions(program: Program) -> Iterator[Expr]:
    """Everything that may name a number sense."""
    for rule in program.box.rules if program.box else ():
        yield rule.expr if isinstance(rule, Rule) else rule.command
    for holder in (*(r.form for r in program.requirements), *program.givens):
        for name in ("p", "q", "r", "y", "c"):
            part = getattr(holder, name, None)
            if part is not None:
                yield part
