"""Vehicles in which each way of copper can break: made without what makes them for users."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.copper.sets.breaking import Breaking
from logiccheck.lang.program import And, ChangesOnlyWhile, Contact, Expr, Not, Or, Position, Program, Switch

ON, OFF = frozenset({1}), frozenset({0})


def breakable(program: Program, closed: bool = False) -> Breaking:
    """Each contact of copper opens for good; with `closed` each that has a condition may also close for good."""
    names: list[str] = []
    parts: list[int] = []
    contacts: list[Contact] = []
    for number, contact in enumerate(program.contacts):
        condition: Expr = And((contact.condition, Not(Position(f"contact {number} open", ON))))
        names.append(f"contact {number} open")
        parts.append(number)
        if closed:
            condition = Or((condition, Position(f"contact {number} closed", ON)))
            names.append(f"contact {number} closed")
            parts.append(number)
        contacts.append(replace(contact, condition=condition))
    switches = tuple(Switch(name, name, ("off", "on"), one_by_one=False, contact=True) for name in names)
    stays = tuple(ChangesOnlyWhile(name, Position(name, OFF), f"{name} for good") for name in names)
    broken = replace(
        program,
        contacts=tuple(contacts),
        switches=(*program.switches, *switches),
        givens=(*program.givens, *stays),
        requirements=(),
        scenarios=(),
    )
    return Breaking(broken, tuple(names), tuple(parts))


def without(breaking: Breaking, kept: frozenset[int]) -> Program:
    """The vehicle in which only these faults may come: the contacts of all others are no part of it."""
    gone = {name for number, name in enumerate(breaking.names) if number not in kept}
    program = breaking.program
    return replace(
        program,
        switches=tuple(each for each in program.switches if each.name not in gone),
        givens=tuple(g for g in program.givens if not (isinstance(g, ChangesOnlyWhile) and g.name in gone)),
        contacts=tuple(replace(each, condition=_without(each.condition, gone)) for each in program.contacts),
    )


def _without(condition: Expr, gone: set[str]) -> Expr:
    """`condition or closed`, `condition and not open`: without the faults that are gone."""
    match condition:
        case Or((rest, Position(name=name))) if name.endswith(" closed") and name in gone:
            return _without(rest, gone)
        case Or((rest, Position() as closed)) if closed.name.endswith(" closed"):
            return Or((_without(rest, gone), closed))
        case And((rest, Not(Position(name=name)))) if name.endswith(" open") and name in gone:
            return rest
        case _:
            return condition
