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
from logiccheck.copper.sets.breaking import Breaking
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

    def bare(self, story: Story) -> Story:
        """A story of the `breaking` without what only lets dips in: it plays on the vehicle that has just the faults it
        shows, each sometime."""
        own = {name for name, fault in zip(self.breaking.names, self.faults, strict=True) if _comes_back(fault)}
        steps = (replace(s, world=tuple(pair for pair in s.world if pair[0] not in own)) for s in story.steps)
        return replace(story, steps=tuple(steps), involved=story.involved - own)


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
