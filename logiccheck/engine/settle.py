"""How many repeats a moment needs until nothing changes any more, decided before anything else is asked.

Without that number a moment caused by something that does not matter could still change what does, and leaving things
out of a question would be wrong. First it is asked of any memory at all, then of reachable memory only.
"""

from __future__ import annotations

from logiccheck.base.frozen import frozen
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.lang.program import Previous, Program
from logiccheck.lang.walk import memory, program_expressions
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.reaction import Forms

FEW_REPEATS = 8


def most_repeats(program: Program) -> int:
    """How many repeats are tried: one for each thing that carries a value into the next reaction, in a row, and a
    few."""
    feeding = sum(output.feeds is not None for output in program.box.outputs) if program.box else 0
    before = sum(isinstance(e, Previous) for expr in program_expressions(program) for e in memory(expr))
    return FEW_REPEATS + len(program.relays) + feeding + before


@frozen
class Depth:
    """`always`: the repeats of `moment` are enough from any memory, reachable or not."""

    moment: Moment
    always: bool


def settle(program: Program, forms: Forms) -> Depth:
    """The least number of repeats that is enough from any memory, or the most that are tried when none so far is."""
    moment = Moment(program, forms)
    while True:
        if not _can_go_on(moment):
            return Depth(moment, True)
        if len(moment.reactions) > most_repeats(program):
            return Depth(moment, False)
        moment.repeat()


def with_repeats(program: Program, forms: Forms, repeats: int) -> Moment:
    """A fresh moment with this many repeats."""
    moment = Moment(program, forms)
    for _ in range(repeats):
        moment.repeat()
    return moment


def _can_go_on(moment: Moment) -> bool:
    """Whether some memory and world lets one more repeat change something."""
    if moment.unsettled == 0:
        return False
    system = moment.system
    sound = [system.aig.both(system.bits[a].now, system.bits[b].now) ^ 1 for a, b in never_together(moment)]
    lits = [moment.unsettled, *(c.lit for c in system.constraints), *sound]
    sat = Sat("cadical153")
    circuit = Circuit(sat, Template(system.aig, system.aig.cone(lits)))
    answer = sat.solve([circuit.lit(lit) for lit in lits])
    sat.close()
    return answer


def never_together(moment: Moment) -> list[tuple[str, str]]:
    """Pairs of stored bits that are never both true, however the memory came about: a timer does not run when it has
    nothing to run for."""
    bits = moment.system.bits
    pairs = []
    for name in bits:
        key, _, part = name.rpartition(".")
        if part in ("done", "on") and f"{key}.run" in bits:
            pairs.append((name, f"{key}.run"))
        if part == "run" and key.endswith(".on") and f"{key[:-3]}.off.run" in bits:
            pairs.append((name, f"{key[:-3]}.off.run"))
    return pairs
