"""Covers as conditions: whether what is stored before a moment, or after it, is in one of their parts.

Choices are decision diagrams, written down from the leaves on. Reference: R. Bryant, "Graph-based algorithms for
Boolean function manipulation", IEEE Trans. Computers C-35(8), 1986.
"""

from __future__ import annotations

from logiccheck.audit.certificate import ALL, NONE, Cover
from logiccheck.audit.gates import NO, YES, Lit
from logiccheck.audit.relation import Relation


def well_made(cover: Cover) -> bool:
    """Whether each sort is known where it is named."""
    choices = all({c.then, c.other} <= set(range(number)) for number, c in enumerate(cover.choices, 2))
    return choices and all(0 <= part.sort < len(cover.choices) + 2 for part in cover.parts)


def inside(relation: Relation, cover: Cover, after: bool) -> Lit:
    """Some part of a cover holds."""
    gates, sorts = relation.moment.gates, {NONE: NO, ALL: YES}
    for number, choice in enumerate(cover.choices, 2):
        sorts[number] = gates.choose(relation.stored(choice.bit, after), sorts[choice.then], sorts[choice.other])
    parts = []
    for part in cover.parts:
        apart = [relation.stored(name, after) * (1 if so else -1) for name, so in part.apart]
        parts.append(gates.all([sorts[part.sort], *apart]))
    return gates.any(parts)


def at_the_start(cover: Cover) -> bool:
    """Whether some part holds before time 0, where every bit is false and no timer runs."""
    sorts = {NONE: False, ALL: True}
    for number, choice in enumerate(cover.choices, 2):
        sorts[number] = sorts[choice.other]
    return any(sorts[part.sort] and not any(so for _, so in part.apart) for part in cover.parts)
