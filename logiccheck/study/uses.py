"""Which names are read where: by the box, by the copper, by requirements, by scenarios."""

from __future__ import annotations

from collections.abc import Iterable

from logiccheck.lang.program import Expr, Output, Program
from logiccheck.lang.walk import references
from logiccheck.model.truth import expressions_of


def names(exprs: Iterable[Expr]) -> frozenset[str]:
    """The names that these expressions read."""
    return frozenset(leaf.name for expr in exprs for leaf in references(expr))


def in_box(program: Program) -> frozenset[str]:
    """Read by rules and outputs."""
    rules = program.box.rules if program.box else ()
    return names(item.command if isinstance(item, Output) else item.expr for item in rules)


def in_copper(program: Program) -> frozenset[str]:
    """Read by conditions of sources, grounds and contacts, and by coils."""
    return names(
        [
            *(source.condition for source in program.sources),
            *(ground.condition for ground in program.grounds),
            *(contact.condition for contact in program.contacts),
            *(relay.coil for relay in program.relays),
        ]
    )


def in_requirements(program: Program) -> frozenset[str]:
    """Read by requirements."""
    return names(expr for requirement in program.requirements for expr in expressions_of(requirement.form))


def in_scenarios(program: Program) -> frozenset[str]:
    """Read by what scenarios expect."""
    return names(each.p for scenario in program.scenarios for each in scenario.expectations)
