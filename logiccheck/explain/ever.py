"""Whether something can ever be so in the situations that a circuit describes."""

from __future__ import annotations

from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.model.circuit.aig import FALSE, Aig, Lit


def ever(aig: Aig, lit: Lit, possible: Lit) -> bool:
    """Whether a situation that meets `possible` makes `lit` true."""
    if lit == FALSE:
        return False
    sat = Sat()
    try:
        circuit = Circuit(sat, Template(aig, aig.cone([lit, possible])))
        sat.add([circuit.lit(possible)])
        sat.add([circuit.lit(lit)])
        return sat.solve([])
    finally:
        sat.close()
