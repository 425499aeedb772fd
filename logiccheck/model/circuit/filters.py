"""The filtered comparisons of a program: memory of the box, wherever they are written but in scenarios."""

from __future__ import annotations

from logiccheck.lang.program import Program, Timer, TimerKind, WireSense
from logiccheck.lang.walk import memory, program_expressions


def comparison_filters(program: Program) -> dict[str, Timer]:
    """By key, each filter over a comparison of a number sense; the same comparison is one filter."""
    senses = program.box.senses if program.box is not None else ()
    wires = {sense.filter.key for sense in senses if isinstance(sense, WireSense) and sense.filter is not None}
    found: dict[str, Timer] = {}
    for expr in program_expressions(program):
        for node in memory(expr):
            if isinstance(node, Timer) and node.kind is TimerKind.FILTER and node.key not in wires:
                found[node.key] = node
    return found
