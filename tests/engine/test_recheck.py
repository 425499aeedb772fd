"""The second look at proofs: what it lets pass is a proof of real deadlines; what is damaged it refuses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.pdr import Proof
from logiccheck.engine.recheck import proof_holds
from logiccheck.engine.refine import TimedProof
from logiccheck.lang.program import Program
from tests.campaign import seeds
from tests.engine.asking import SECONDS, proof, questions
from tests.engine.realproof import RealStep, is_proof
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 40


def proofs(program: Program) -> Iterator[tuple[Cone, TimedProof]]:
    """The exact cone and the proof of each question that has one."""
    asked = questions(program)
    for question in asked.all:
        if asked.settles and question.bad:
            base = exact(asked.cone(question, question.bad))
            found = proof(base)
            if found is not None:
                yield base, found


def damaged(timed: TimedProof, random: Random) -> tuple[str, TimedProof] | None:
    """The proof with one cube or one literal less, or one literal turned over."""
    cubes = list(timed.proof.cubes)
    if not cubes:
        return None
    place = random.randrange(len(cubes))
    literal = random.choice(sorted(cubes[place]))
    kind = random.choice(["cube dropped", "literal dropped", "literal flipped"])
    if kind == "cube dropped":
        del cubes[place]
    elif kind == "literal dropped":
        cubes[place] -= {literal}
    else:
        cubes[place] = cubes[place] - {literal} | {-literal}
    return kind, replace(timed, proof=Proof(tuple(cubes)))


def widened(base: Cone, random: Random) -> tuple[str, Cone]:
    """The same vehicle, but one of its clocks may take less time, or more."""
    clocks = list(base.clocks)
    place = random.randrange(len(clocks))
    clock = clocks[place]
    less = random.random() < 0.5
    clocks[place] = replace(clock, lo=clock.lo // 4) if less else replace(clock, hi=clock.hi * 4)
    return f"may take {'less' if less else 'more'}", replace(base, clocks=clocks)


def look(seed: int, times: int) -> Counter[str]:
    """Every proof of one program, and some damaged ones of each."""
    random, seen = Random(seed), Counter[str]()
    for base, timed in proofs(loaded(random_program(seed).text)):
        assert not RealStep(base, timed).goes_on_out_of_nothing(), seed
        assert proof_holds(base, timed, Budget(SECONDS)), seed
        assert is_proof(base, timed), seed
        seen["proof"] += 1
        seen["proof with predicates"] += bool(timed.tracked.predicates)
        damages = [(base, damaged(timed, random)) for _ in range(times)]
        if base.clocks and timed.tracked.predicates:
            damages += [(cone, (kind, timed)) for kind, cone in (widened(base, random) for _ in range(times))]
        for cone, found in damages:
            if found is not None:
                kind, other = found
                holds = proof_holds(cone, other, Budget(SECONDS))
                assert holds is is_proof(cone, other), f"{seed}: {kind}, said to hold: {holds}"
                seen[f"{kind}, {'still a proof' if holds else 'refused'}"] += 1
    return seen


def test_damaged_proofs() -> None:
    """Both say the same of whole proofs and of damaged ones, and of proofs where a timer is not as it was; each kind of
    damage is refused somewhere."""
    seen = sum((look(seed, 4) for seed in range(SEEDS)), Counter[str]())
    assert seen["proof"] > 20
    assert seen["proof with predicates"] > 5
    for kind in ("cube dropped", "literal dropped", "literal flipped", "may take less", "may take more"):
        assert seen[f"{kind}, refused"] > 3, seen


@pytest.mark.campaign
def test_damaged_proofs_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        look(each, 10)
