"""The filtered comparisons of a program: memory of the box, wherever they are written but in scenarios."""

from __future__ import annotations

from logiccheck.lang.program import Compare, Program, Timer, TimerKind
from logiccheck.lang.walk import memory, program_expressions


def comparison_filters(program: Program) -> dict[str, Timer]:
    """By key, each filter over a comparison of a number sense; the same comparison is one filter."""
    found: dict[str, Timer] = {}
    for expr in program_expressions(program):
        for node in memory(expr):
            if isinstance(node, Timer) and node.kind is TimerKind.FILTER and isinstance(node.x, Compare):
                found[node.key] = node
    return found
