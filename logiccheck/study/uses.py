"""Which names are read where: by the box, by the copper, by requirements, by scenarios."""

from __future__ import annotations

from collections.abc import Iterable

from logiccheck.lang.program import ChangesOnlyWhile, Expr, NumberSense, Program
from logiccheck.lang.walk import condition_of, electrics_expressions, given_expressions, references
from logiccheck.model.truth import expressions_of


def names(exprs: Iterable[Expr]) -> frozenset[str]:
    """The names that these expressions read."""
    return frozenset(leaf.name for expr in exprs for leaf in references(expr))


def in_box(program: Program) -> frozenset[str]:
    """Read by rules and outputs, other than themselves."""
    rules = program.box.rules if program.box else ()
    return frozenset(name for item in rules for name in names([condition_of(item)]) - {item.name})


def in_copper(program: Program) -> frozenset[str]:
    """Read by conditions of sources, grounds and contacts, and by coils of other relays."""
    found = names(
        [
            *(source.condition for source in program.sources),
            *(ground.condition for ground in program.grounds),
            *(contact.condition for contact in program.contacts),
        ]
    )
    return found.union(*(names([relay.coil]) - {relay.name} for relay in program.relays))


def in_requirements(program: Program) -> frozenset[str]:
    """Read by requirements."""
    return names(expr for requirement in program.requirements for expr in expressions_of(requirement.form))


def in_scenarios(program: Program) -> frozenset[str]:
    """Read by what scenarios expect."""
    return names(each.p for scenario in program.scenarios for each in scenario.expectations)


def in_electrics(program: Program) -> frozenset[str]:
    """Read by the lines of `electrics`; the sources of its batteries, too."""
    around = program.electrics
    sources = {battery.source for battery in around.batteries} | {dip.source for dip in around.dips}
    return names(electrics_expressions(program)) | sources


def in_given(program: Program) -> frozenset[str]:
    """Read by what is given."""
    changing = (given.name for given in program.givens if isinstance(given, ChangesOnlyWhile))
    return names(expr for given in program.givens for expr in given_expressions(given)) | frozenset(changing)


def connected(program: Program) -> frozenset[str]:
    """The wires and sources that something takes from or is joined to, and the numbers that are sensed."""
    found = {name for each in program.contacts for name in (each.left, each.right)}
    found |= {name for each in program.diodes for name in (each.anode, each.cathode)}
    found |= {each.wire for each in program.loads}
    found |= names(each.supply for each in program.relays if each.supply is not None)
    if program.box is not None:
        found.add(program.box.feed)
        found |= {each.number if isinstance(each, NumberSense) else each.wire for each in program.box.senses}
        found |= {name for each in program.box.outputs for name in (each.fed_by, each.feeds) if name is not None}
    return frozenset(found)
