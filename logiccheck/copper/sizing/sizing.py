"""All checks of one load, output or wire against published tables."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.copper.sizing.ampacity import carries, protects
from logiccheck.copper.sizing.drop import drop
from logiccheck.copper.sizing.fuse import continuous, inrush
from logiccheck.copper.sizing.sized import Sized
from logiccheck.lang.program import Electrical, Electrics


def sizing(what: Electrical, electrics: Electrics, current: Fraction | None) -> tuple[Sized, ...]:
    """What carries `current` (A) for long at most, None where that is not known: continuous current against fuse, fuse
    against wire, voltage lost, inrush against fuse where an inrush is said, and the current against a wire that has no
    fuse of its own."""
    found = [continuous(what, electrics, current), protects(what, electrics), drop(what, electrics, current)]
    if what.inrush is not None:
        found.append(inrush(what))
    if what.fuse is None and what.wire_size is not None:
        found.append(carries(what, electrics, current))
    return tuple(found)
