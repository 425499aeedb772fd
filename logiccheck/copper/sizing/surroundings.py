"""How warm it is around a wire, and a fuse."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.copper.tables.table import table
from logiccheck.lang.program import Electrical, Electrics


def around(what: Electrical, electrics: Electrics) -> Fraction:
    """Degrees Celsius around the wire: as the file says, else what the table of currents takes for such a place."""
    warm = table("warm_wire")
    said = electrics.engine_space if what.engine_space else electrics.ambient
    if said is not None:
        return said
    usual = warm.at("inside" if what.engine_space else "outside", "temperature")
    return usual if electrics.ambient is None else max(usual, electrics.ambient)
