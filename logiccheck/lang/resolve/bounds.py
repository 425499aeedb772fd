"""The constants each number of the world is compared with, anywhere in the program but in scenarios."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from logiccheck.lang import program as p
from logiccheck.lang.walk import program_expressions, references


def with_bounds(program: p.Program) -> p.Program:
    """The program, its numbers with all constants they are compared with, rising. What a scenario expects changes
    nothing of what the vehicle does, and so neither a verdict nor a story."""
    inputs = {sense.name: sense.number for sense in _number_senses(program)}
    bounds: dict[str, set[Fraction]] = {number.name: set() for number in program.numbers}
    for expr in program_expressions(program):
        for leaf in references(expr):
            if isinstance(leaf, p.Compare):
                bounds[inputs[leaf.name] if leaf.sense else leaf.name].add(leaf.bound)
    numbers = tuple(replace(n, bounds=tuple(sorted(bounds[n.name]))) for n in program.numbers)
    return replace(program, numbers=numbers)


def _number_senses(program: p.Program) -> Iterable[p.NumberSense]:
    return (s for s in program.box.senses if isinstance(s, p.NumberSense)) if program.box else ()
