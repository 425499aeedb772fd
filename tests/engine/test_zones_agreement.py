"""Zones alone against the explorer and against refinement alone, on random programs; and the question in parts."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.cone import exact
from logiccheck.engine.engines import Engine
from logiccheck.engine.parts import disjuncts, parts
from logiccheck.engine.portfolio import Never, prove
from logiccheck.engine.shortest import Search
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.engine.zones.decide import Covered, decide
from logiccheck.lang.program import Program
from logiccheck.model.circuit.aig import Aig
from tests.bench.families import Box, family
from tests.campaign import seeds
from tests.engine.asking import question, questions
from tests.oracle.agreement import complaint
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.oracle import decide as explore
from tests.oracle.programs import random_program

SEEDS = range(2_000, 2_040)
SECONDS = 60.0
LIMIT = 6_000


def look(seed: int, tally: Counter[str]) -> list[str]:
    """What the three say of one program, and where they contradict each other."""
    program = loaded(random_program(seed).text)
    alone = {engine: check_program(program, SECONDS, engines={engine}).verdicts for engine in Engine}
    complaints = []
    for zones, refinement in zip(alone[Engine.ZONES], alone[Engine.REFINEMENT], strict=True):
        tally[zones.kind.value] += 1
        where = f"program {seed}, {zones.requirement.name}"
        if Kind.NOT_DECIDED not in (zones.kind, refinement.kind) and said(zones) != said(refinement):
            complaints.append(f"{where}: zones say {said(zones)}, refinement {said(refinement)}")
        try:
            wrong = complaint(explore(program, zones.requirement, LIMIT), zones)
        except TooBig:
            continue
        if wrong:
            complaints.append(f"{where}: {wrong}")
    return complaints


def said(verdict: Verdict) -> tuple[Kind, int | None]:
    return verdict.kind, verdict.story.moments if verdict.story is not None else None


def test_all_three_agree() -> None:
    """On every verdict and on how long the shortest story is; and zones decide nearly all."""
    tally = Counter[str]()
    complaints = [line for seed in SEEDS for line in look(seed, tally)]
    assert not complaints, "\n".join(complaints)
    assert tally["not decided"] <= tally.total() / 20, tally
    assert min(tally["proved"], tally["fails"]) > 30, tally


@pytest.mark.campaign
def test_all_three_agree_at_length() -> None:
    """As many programs as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    complaints = [line for each in seeds() for line in look(each, Counter())]
    assert not complaints, "\n".join(complaints)


def shortest(program: Program) -> list[tuple[int, int]]:
    """For each failing question without a time of its own: the moments of the trace of zones, and of the shortest."""
    found = []
    asked = questions(program)
    for each in asked.all if asked.settles else ():
        cone = asked.told(each)
        if cone.watches or not each.bad:
            continue
        trace = decide(exact(cone), Budget(SECONDS))
        if not isinstance(trace, Covered):
            search = Search(cone, Budget(SECONDS))
            least = search.run()
            search.close()
            assert least is not None
            found.append((len(trace), len(least)))
    return found


def test_zones_find_the_fewest_moments_themselves() -> None:
    """Breadth first: the trace of zones is as long as the shortest story."""
    pairs = [pair for seed in SEEDS for pair in shortest(loaded(random_program(seed).text))]
    assert [mine for mine, _ in pairs] == [least for _, least in pairs]
    assert sum(least > 2 for _, least in pairs) > 10


# parts


@pytest.mark.parametrize("seed", range(20))
def test_parts_are_the_whole(seed: int) -> None:
    """One of the parts is true exactly when the whole is."""
    random, aig = Random(seed), Aig()
    inputs = [aig.new_input(name) for name in "abcde"]
    lits = list(inputs)
    for _ in range(12):
        a, b = (lit ^ random.getrandbits(1) for lit in random.sample(lits, 2))
        lits.append(random.choice([aig.both, aig.either])(a, b))
    apart = disjuncts(aig, lits[-1], lambda lit: {node for node in aig.cone([lit]) if 2 * node in inputs})
    for number in range(32):
        values = {lit >> 1: bool(number >> k & 1) for k, lit in enumerate(inputs)}
        whole, *each = aig.evaluate([lits[-1], *apart], values)
        assert whole == any(each)


def test_a_question_in_parts_looks_at_less() -> None:
    """Each pair of timers is a question of its own, which zones decide; together they are too many."""
    asked, each = question(loaded(family("par:8")), "asked")
    cone = asked.cone(each, each.bad)
    small = parts(cone)
    assert len(small) == 4
    assert all(len(part.clocks) == 2 and len(part.world) == 1 for part in small)
    found = prove(cone, Budget(SECONDS / 4), {Engine.ZONES})  # of which the whole question gets a fifth, in vain
    assert isinstance(found, Never)
    assert found.engines == {Engine.ZONES}


def test_a_question_under_one_condition_is_taken_apart_too() -> None:
    asked, each = question(loaded(family("both:4")), "asked")
    cone = asked.cone(each, each.bad)
    small = parts(cone)
    assert len(cone.clocks) == 7
    assert sorted(len(part.clocks) for part in small)[-3:] == [2, 2, 3]


def test_a_part_rests_on_what_is_given_of_it() -> None:
    """Each part of it is proved; one of them only because of a line that has nothing to do with the other."""
    box = Box()
    first, second = (box.rule(f"held_{name}", f"on_delay({box.sensed(name)}, 2 s)") for name in "xy")
    shot, held = box.rule("shot", f"one_shot({box.sensed('z')}, 3 s)"), box.rule("held_z", "on_delay(s_z, 3 s)")
    text = box.text(f"never ({first} and {second}) or ({shot} and {held})")
    asked, each = question(loaded(text.replace("requirements", "given\n    never x and y\n\nrequirements")), "asked")
    small = parts(asked.cone(each, each.bad))
    assert sorted((len(part.clocks), sum(c.line is not None for c in part.constraints)) for part in small) == [
        (2, 0),
        (2, 1),
    ]
    assert all(isinstance(prove(part, Budget(SECONDS)), Never) for part in small)
