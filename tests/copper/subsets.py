"""Minimal cut sets of small vehicles by brute force: every set of faults is asked on its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations

from logiccheck.lang.program import Contact, Diode, Dip, Requirement
from tests.oracle.broken.asked import Explored
from tests.oracle.broken.kernel import limited
from tests.oracle.broken.making import Breaking
from tests.oracle.broken.parts import Fault, Mode, When, whens
from tests.oracle.oracle import Kind, nodes_of


@dataclass
class Cut:
    """`sets`: those that make the requirement fail while no part of them does; `blocked`: with these nothing is known,
    and no set that holds one of them is asked."""

    sets: set[frozenset[Fault]] = field(default_factory=set)
    blocked: set[frozenset[Fault]] = field(default_factory=set)


def allowed(faults: frozenset[Fault]) -> dict[Fault, When]:
    """Each may come at any moment, time 0 included; what can only come and go, or only come later, does so."""
    return {fault: When.EVER if len(whens(fault)) > 1 else whens(fault)[0] for fault in faults}


def place(fault: Fault) -> object:
    """What can fail in one way at a time; a fuse, and a dip, are things of their own."""
    match fault.part:
        case Contact() | Diode() | Dip():
            return id(fault.part)
        case part:
            return type(part).__name__, part.name, fault.mode is Mode.FUSE


def that_matter(vehicle: Explored, requirement: Requirement) -> list[Fault]:
    """The faults that can matter to it, by names, where all may be there."""
    making = Breaking(allowed(frozenset(vehicle.faults)))
    part = making.slice(limited(vehicle.program, vehicle.faults), nodes_of(requirement), (requirement,))
    return [fault for fault, _ in making.kept[part]]


def candidates(faults: list[Fault], order: int) -> Iterator[frozenset[Fault]]:
    """All sets with at most so many, the smallest first, one fault of a thing at most."""
    for size in range(order + 1):
        for chosen in combinations(faults, size):
            if len({place(fault) for fault in chosen}) == size:
                yield frozenset(chosen)


def cut_sets(vehicle: Explored, requirement: Requirement, order: int) -> Cut:
    """Raises `TooBig`."""
    found = Cut()
    for chosen in candidates(that_matter(vehicle, requirement), order):
        if any(known <= chosen for known in found.sets | found.blocked):
            continue
        kind = vehicle.with_faults(requirement, allowed(chosen)).kind
        if kind is Kind.FAILS:
            found.sets.add(chosen)
        elif kind is Kind.BLOCKED:
            found.blocked.add(chosen)
    return found
