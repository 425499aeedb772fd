"""What is said of parked vehicles, held against all that can be, on random programs."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.resting.resting import resting
from logiccheck.explain.asking import Never, Seen
from logiccheck.lang.program import And, Electrical, Electrics, Expr, Output, Position, Program, Window
from logiccheck.model.interpreter import Machine
from tests.campaign import seeds
from tests.copper.resting.explored import after, all_rests
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

LIMIT = 4_000


def draining(seed: int) -> Program:
    """A random program in which everything draws something."""
    random = Random(seed)
    program = loaded(random_program(seed, rich=seed % 2 == 0).text)

    def amperes() -> Fraction | None:
        return (
            Fraction(random.choice([1, 2, 3, 5, 8, 13]), random.choice([1, 2, 10])) if random.random() < 0.85 else None
        )

    loads = tuple(replace(load, electrical=Electrical(amperes())) for load in program.loads)
    relays = tuple(replace(relay, draws=amperes() if random.random() < 0.4 else None) for relay in program.relays)
    box = program.box
    if box is not None:
        rules = tuple(
            replace(rule, electrical=Electrical(amperes())) if isinstance(rule, Output) else rule for rule in box.rules
        )
        box = replace(box, rules=rules, awake=amperes(), asleep=amperes())
    facts: list[Expr] = [Position(each.name, frozenset({random.randrange(2)})) for each in program.switches]
    parked = random.choice(facts) if facts and random.random() < 0.7 else And(())
    return replace(program, loads=loads, relays=relays, box=box, electrics=Electrics(parked=parked))


def agree(seed: int, found: Counter[str]) -> None:
    """Nothing draws more than was said to be the most; what was said to be drawn is."""
    program = draining(seed)
    parked = program.electrics.parked
    assert parked is not None
    try:
        rests = list(all_rests(program, parked, LIMIT))
    except TooBig:
        found["too big"] += 1
        return
    known = [rest for rest in rests if rest is not None]
    said = resting(program, Budget(40), lambda _: None)
    if not isinstance(said.stays, Seen | Never):
        found["no answer"] += 1
        return
    found["never at rest" if isinstance(said.stays, Never) else "at rest"] += 1
    assert not (isinstance(said.stays, Never) and known), f"seed {seed}: it comes to rest"
    windows: list[Window] = list(Machine(program).windows.values())
    steady = len(known) == len(rests) and all(window.lo == window.hi for window in windows)
    for drained in said.drained:
        source = drained.tap.feed.name
        worst = max((rest.drawn(program, source) for rest in known), default=None)
        if worst is not None:
            assert worst <= drained.most, f"seed {seed}: {source} gives {worst}, not {drained.most} at most"
        for way in drained.ways:
            rest = after(program, way.story)
            assert rest is not None, f"seed {seed}"
            assert rest.drawn(program, source) == way.average, f"seed {seed}: {source}"
        found["exact" if drained.exact else "not exact"] += 1
        blinks = any(way.period is not None for way in drained.ways)
        if drained.ways and steady and not blinks:
            assert worst is not None
            assert drained.worst <= worst, f"seed {seed}"
            found["the worst" if drained.worst == worst else "less than the worst"] += 1
        found["round and round"] += blinks


def test_random_vehicles() -> None:
    found: Counter[str] = Counter()
    for seed in range(25):
        agree(seed, found)
    assert found["exact"] >= 12
    assert found["round and round"] >= 1


@pytest.mark.long
def test_many_random_vehicles() -> None:
    """CAMPAIGN_COUNT vehicles from CAMPAIGN_SEED on."""
    found: Counter[str] = Counter()
    for seed in seeds(8):
        agree(seed, found)
    print(dict(found))
