"""A proof looked at again, from nothing, by another SAT solver: it holds initially, is kept by every moment, and is
safe.

Reference: the three conditions of an inductive invariant, as in Bradley, "SAT-based model checking without unrolling",
2011.
"""

from __future__ import annotations

from logiccheck.engine.cone import Cone
from logiccheck.engine.pdr import Cube, Proof
from logiccheck.engine.sat import Circuit, Sat


def proof_holds(cone: Cone, proof: Proof) -> bool:
    """Whether no blocked cube holds at the start, none is entered from outside all of them, and none bad is left."""
    if any(all(x < 0 for x in cube) for cube in proof.cubes):
        return False
    sat = Sat("glucose4")
    circuit = Circuit(sat, cone.aig, cone.order)
    following = {bit.now >> 1: bit.next for bit in cone.bits}

    def then(cube: Cube) -> list[int]:
        return [circuit.lit(following[abs(x)] ^ (x < 0)) for x in cube]

    for constraint in cone.constraints:
        sat.add([circuit.lit(constraint.lit)])
    for cube in proof.cubes:
        sat.add([-circuit.lit(2 * abs(x) + (x < 0)) for x in cube])
    holds = not sat.solve([circuit.lit(cone.bad)]) and not any(sat.solve(then(cube)) for cube in proof.cubes)
    sat.close()
    return holds
