"""Which facts about hands and physics can be so at once: a switch stands in one position, a number has one value."""

from __future__ import annotations

from logiccheck.explain.primes import Term
from logiccheck.lang.program import Compare, Position, Program
from logiccheck.model.play import candidates
from logiccheck.model.truth import compare


def can_stand_together(program: Program, term: Term) -> bool:
    """Whether each switch and each number of the world, by itself, can be as all facts of the term say."""
    facts = [(fact, value) for fact, value in term if isinstance(fact, Position | Compare)]
    for switch in program.switches:
        mine = [(f, value) for f, value in facts if isinstance(f, Position) and f.name == switch.name]
        if not any(all((i in f.indices) == value for f, value in mine) for i in range(len(switch.positions))):
            return False
    for number in program.numbers:
        held = [(f, value) for f, value in facts if isinstance(f, Compare) and not f.sense and f.name == number.name]
        if not any(all(compare(v, f.op, f.bound) == value for f, value in held) for v in candidates(number)):
            return False
    return True
