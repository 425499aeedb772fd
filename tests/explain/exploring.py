"""What can be so in a small vehicle, by exploring all of it; and random questions about random vehicles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

from logiccheck.explain.situation import Asked, signals
from logiccheck.lang.program import And, Expr, Guard, Not, Or, Possible, Program, Requirement
from logiccheck.lang.resolve.bounds import with_bounds
from tests.oracle.loading import loaded
from tests.oracle.oracle import Kind, decide
from tests.oracle.programs import random_program

LIMIT = 3_000


def possible(program: Program, *parts: Expr) -> int | str:
    """In how many moments all parts can be so, 0 if they never are; or why there is no answer. Raises `TooBig`."""
    asked = Requirement("asked", "", Guard.FUNCTION, Possible(And(parts)), "")
    answer = decide(with_bounds(_asking(program, asked)), asked, LIMIT)
    if answer.kind is Kind.BLOCKED:
        return answer.reason
    return answer.moments or 0


def _asking(program: Program, requirement: Requirement) -> Program:
    return replace(program, requirements=(*program.requirements, requirement))


def asked_at_random(seeds: range) -> Iterator[tuple[int, Random, Program, Asked]]:
    """A random vehicle for each seed, and one of its signals, or what three of them make."""
    for seed in seeds:
        program, random = loaded(random_program(seed).text), Random(seed)
        known = list(signals(program).values())
        one, two, three = (random.choice(known) for _ in range(3))
        if random.random() < 0.5:
            yield seed, random, program, one
        else:
            on = Or((And((one.on, random.choice([two.on, Not(two.on)]))), And((three.on, Not(one.on)))))
            yield seed, random, program, Asked("several", "", on)


def literals(term: frozenset[tuple[Expr, bool]]) -> tuple[Expr, ...]:
    """A term as conditions."""
    return tuple(fact if value else Not(fact) for fact, value in term)
