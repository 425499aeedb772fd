"""All ways in which a signal can be on, held against exploring all of the vehicle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.all_ways import AllWays, all_ways
from logiccheck.explain.asking import Blocked
from logiccheck.explain.primes import Term, TooMany, minimal_terms
from logiccheck.explain.situation import Asked
from logiccheck.explain.written_out import unfolded
from logiccheck.lang.program import And, Expr, Not, Number, Program, Switch, WorldSet
from logiccheck.lang.walk import Memory
from logiccheck.model.play import first_world, play
from logiccheck.model.timeline import Played
from tests.campaign import seeds
from tests.explain.exploring import asked_at_random, literals, possible
from tests.oracle.explorer import TooBig
from tests.oracle.programs import random_program

SEEDS = range(60)


class Held:
    """The ways of one signal, held against the explorer; `complaints` are sentences."""

    def __init__(self, program: Program, asked: Asked, found: AllWays) -> None:
        self.asked, self.found = asked, found
        self.text = unfolded(program, asked.on)
        self.terms = minimal_terms(self.text.on, self.text.facts)

    def can(self, term: Term, *more: Expr) -> int | str:
        named = [self.text.outside(part) for part in literals(term)]
        if any(part is None for part in named):
            return "has no name outside"
        return possible(self.text.program, *(part for part in named if part is not None), *more)

    def complaints(self) -> Iterator[str]:
        yield from self.about_ways()
        for excluded in self.found.excluded:
            if self.can(excluded.by) not in (0, "has no name outside"):
                yield f"these can be together: {excluded.by}"
            if not all(excluded.by <= term for term in excluded.terms):
                yield f"{excluded.by} is not in each of {excluded.terms}"
        beside = [Not(self.joined(way.term)) for way in self.found.ways]
        if self.found.complete and possible(self.text.program, self.asked.on, *beside) not in (0, "it never settles"):
            yield "it can be on in yet another way"

    def joined(self, term: Term) -> Expr:
        return And(tuple(self.text.outside(part) or part for part in literals(term)))

    def about_ways(self) -> Iterator[str]:
        for way in self.found.ways:
            moments = self.can(way.term)
            longer = way.holds_itself and isinstance(moments, int) and 0 < moments <= way.story.moments
            if not longer and moments not in (way.story.moments, "has no name outside", "it never settles"):
                yield f"{way.term}: {way.story.moments} moments, and not {self.can(way.term)}"
            off = self.can(way.term, Not(self.asked.on))
            if off not in (0, "has no name outside") and not (off == "it never settles" and way.term in self.terms):
                yield f"{way.term}: it can be off"
            for literal in way.term if way.short else ():
                if self.can(way.term - {literal}, Not(self.asked.on)) == 0:
                    yield f"{way.term}: {literal} could be left out"


def held(mix: Counter[str], seed: int, program: Program, asked: Asked) -> list[str]:
    """What is wrong with the ways of one signal of one program; `mix` counts what they were."""
    try:
        found = all_ways(program, asked, Budget(30.0), lambda _: None)
        complaints = list(Held(program, asked, found).complaints())
    except (TooBig, TooMany):
        mix["too big"] += 1
        return []
    mix["ways"] += len(found.ways)
    mix["shortened"] += sum(len(way.term) < 2 for way in found.ways)
    mix["excluded"] += sum(len(each.terms) for each in found.excluded)
    mix["merged"] += found.merged
    blocked = sum(isinstance(why, Blocked) for _, why in found.undecided)
    mix["blocked"] += blocked
    mix["undecided"] += len(found.undecided) - blocked
    mix["programs"] += 1
    if found.terms != len(found.ways) + found.merged + len(found.undecided) + sum(
        len(each.terms) for each in found.excluded
    ):
        complaints.append("the numbers do not add up")
    return [f"program {seed}, {asked.name}: {complaint}" for complaint in complaints]


def test_ways_agree_with_the_explorer(capsys: pytest.CaptureFixture[str]) -> None:
    """Each way happens, in as many moments; makes it on; needs each of its facts; no way is missing; and what is said
    to be impossible is."""
    mix: Counter[str] = Counter()
    wrong = [line for seed, _, p, asked in asked_at_random(SEEDS) for line in held(mix, seed, p, asked)]
    with capsys.disabled():
        print(f"\n{dict(mix)}")
    assert not wrong, "\n".join(wrong)
    assert mix["ways"] > 40
    assert mix["excluded"] > 10
    assert mix["merged"] > 0
    assert mix["undecided"] <= 0.02 * mix["ways"]


@pytest.mark.campaign
def test_ways_agree_with_the_explorer_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many programs as CAMPAIGN_COUNT says."""
    mix: Counter[str] = Counter()
    wrong = [line for seed, _, p, asked in asked_at_random(seeds()) for line in held(mix, seed, p, asked)]
    with capsys.disabled():
        print(f"\n{dict(mix)}")
    assert not wrong, "\n".join(wrong)


def test_written_out_the_vehicle_does_the_same() -> None:
    """What remembers may have a rule of its own, and nothing else is otherwise: played at random, all signals of both
    vehicles read the same at each moment, and the signal is what its facts make of it."""
    moved = 0
    for seed, _, program, asked in asked_at_random(range(400)):
        text = unfolded(program, asked.on)
        moved += text.program.box != program.box
        timelines = [_walk(each, Random(seed)) for each in (program, text.program)]
        for here, there in zip(*timelines, strict=True):
            assert here.time == there.time
            if not here.moment.settles:
                assert not there.moment.settles
                continue
            values, others = here.moment.settled.values, there.moment.settled.values
            mine = {each for each in others.true if not each[1].startswith("inside ")}
            assert (values.true, values.nodes) == (mine, others.nodes), random_program(seed).text
            assert values.holds(text.on) == values.holds(asked.on), (seed, asked.name)
            for fact in text.facts:
                outside = text.outside(fact)
                if outside is None:
                    assert isinstance(fact, Memory)
                else:
                    assert others.holds(outside) == values.holds(fact), (seed, fact)
    assert moved > 10


def _walk(program: Program, random: Random) -> tuple[Played, ...]:
    """The moments of a random story."""
    changes = []
    for number in range(12):
        things: list[Switch | Number] = [*program.switches, *program.numbers]
        thing = random.choice(things)
        if isinstance(thing, Number):
            value: int | Fraction = random.choice([thing.low, *thing.bounds, thing.high])
        else:
            value = random.randrange(len(thing.positions))
        changes.append(WorldSet(number * 500_000 + random.randrange(3) * 250_000, thing.name, value))
    return play(program, changes, (), 8_000_000, first_world(program, {}, program.at_first)).played
