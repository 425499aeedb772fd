"""How long the battery of a parked vehicle lasts: what is drawn for ever while no hand moves, and the worst of it."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.base.budget import Budget
from logiccheck.copper.resting.resting import Resting, resting
from logiccheck.lang.program import Program


def parked_battery(program: Program, budget: Budget, progress: Callable[[str], None]) -> Resting | None:
    """None where the file does not say when the vehicle is parked. What ends the search early, an interrupt, the
    end of memory, a bug of ours, leaves what was found."""
    return None if program.electrics.parked is None else resting(program, budget, progress)
