"""Which wires are reached from a live source or from ground: the least solution, by elimination of one wire at a time.

Each wire is reached by itself (a source that stands at it) or from a neighbour. In the equation of a wire its own value
may be left out, since the least solution never needs it; then the wire is put into the equations of the others.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeAlias

from logiccheck.audit.gates import NO, YES, Gates, Lit
from logiccheck.lang.program import Program

Way: TypeAlias = tuple[str, str, Lit]  # from the one to the other while the condition holds


def ways(program: Program, closed: list[Lit], forward: bool) -> list[Way]:
    """Contacts both ways while closed; diodes as they point, or (for ground: the current runs off) against it."""
    found: list[Way] = []
    for contact, condition in zip(program.contacts, closed, strict=True):
        found += [(contact.left, contact.right, condition), (contact.right, contact.left, condition)]
    for diode in program.diodes:
        found.append((diode.anode, diode.cathode, YES) if forward else (diode.cathode, diode.anode, YES))
    return found


def reached(gates: Gates, wires: Iterable[str], all_ways: Iterable[Way], origins: Mapping[str, Lit]) -> dict[str, Lit]:
    """For each wire whether something arrives at it. `origins`: what ends and wires are by themselves.

    Ends (origins that are no wires) pass nothing on but what they are themselves.
    """
    itself = {wire: [origins.get(wire, NO)] for wire in wires}
    near: dict[str, dict[str, list[Lit]]] = {wire: {} for wire in itself}
    for tail, head, condition in all_ways:
        if head not in itself or tail == head or condition == NO:
            continue
        if tail in itself:
            near[head].setdefault(tail, []).append(condition)
        elif tail in origins:
            itself[head].append(gates.both(origins[tail], condition))
    base = {wire: gates.any(lits) for wire, lits in itself.items()}
    way = {head: {tail: gates.any(lits) for tail, lits in tails.items()} for head, tails in near.items()}
    return _solve(gates, base, way)


def _solve(gates: Gates, base: dict[str, Lit], way: dict[str, dict[str, Lit]]) -> dict[str, Lit]:
    """`way[w][v]`: the condition under which w has what v has. Both tables are used up."""
    onward: dict[str, set[str]] = {wire: set() for wire in base}
    for head, tails in way.items():
        for tail in tails:
            onward[tail].add(head)
    order: list[str] = []
    left = set(base)
    while left:
        wire = min(left, key=lambda w: (len(way[w]) * len(onward[w]), w))
        left.remove(wire)
        order.append(wire)
        for tail in way[wire]:
            onward[tail].discard(wire)
        for head in onward[wire]:
            condition = way[head].pop(wire)
            base[head] = gates.either(base[head], gates.both(condition, base[wire]))
            for tail, farther in way[wire].items():
                if tail != head:
                    known = way[head].get(tail, NO)
                    way[head][tail] = gates.either(known, gates.both(condition, farther))
                    onward[tail].add(head)
    value: dict[str, Lit] = {}
    for wire in reversed(order):
        arriving = [gates.both(condition, value[tail]) for tail, condition in way[wire].items()]
        value[wire] = gates.any([base[wire], *arriving])
    return value
