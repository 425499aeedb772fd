"""Faults of a vehicle as things that can break for good, together; and stories of them as told of the vehicle that has
just these faults.

What comes back by itself, a dip, is let in by a contact of its own that stays: it is that contact which counts.
"""

from __future__ import annotations

from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.asked import shorted
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import Fault, Mode
from logiccheck.copper.sets.breaking import Breaking, CutSet
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.program import And, ChangesOnlyWhile, Excluded, Position, Program, Requirement, Switch
from logiccheck.model.story import Story

_OFF, _ON = frozenset({0}), frozenset({1})


@frozen
class Faulty:
    """`breaking` has all the faults, in their order; `requirements` are those of the vehicle, as they read there, and
    the one that every vehicle has."""

    breaking: Breaking
    faults: tuple[Fault, ...]
    requirements: tuple[Requirement, ...]

    def bare(self, cut: CutSet) -> Story:
        """The story of a set, as it plays on the vehicle that has just its faults, each sometime: without what lets
        dips in, and without the dips that are not let in."""
        coming = [number for number, fault in enumerate(self.faults) if _comes_back(fault)]
        gone = {self.breaking.names[number] for number in coming}
        gone |= {self.faults[number].id for number in coming if number not in cut.faults}
        steps = (replace(s, world=tuple(pair for pair in s.world if pair[0] not in gone)) for s in cut.story.steps)
        return replace(cut.story, steps=tuple(steps), involved=cut.story.involved - gone)


def faulty(program: Program, faults: tuple[Fault, ...]) -> Faulty:
    """The vehicle with all of these faults."""
    short = replace(shorted(program).requirement, name=SHORT_CIRCUIT)
    asked = (*program.requirements, short) if program.wires else program.requirements
    broken = together(replace(program, requirements=asked), faults)
    coming = tuple(fault for fault in faults if _comes_back(fault))
    switches = (Switch(_lets_in(fault), "", ("off", "on"), one_by_one=False, contact=True) for fault in coming)
    stay = (ChangesOnlyWhile(_lets_in(fault), Position(_lets_in(fault), _OFF), "") for fault in coming)
    let_in = (Excluded(And((Position(fault.id, _ON), Position(_lets_in(fault), _OFF))), "") for fault in coming)
    vehicle = replace(
        broken,
        switches=(*broken.switches, *switches),
        givens=(*broken.givens, *stay, *let_in),
        requirements=(),
    )
    names = tuple(_lets_in(fault) if _comes_back(fault) else fault.id for fault in faults)
    parts = tuple((fault.kind, fault.part) for fault in faults)
    return Faulty(Breaking(vehicle, names, parts), faults, broken.requirements)


def _comes_back(fault: Fault) -> bool:
    return fault.mode is Mode.DIPPED


def _lets_in(fault: Fault) -> str:
    return f"{fault.id}, let in"
