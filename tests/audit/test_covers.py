"""Covers: those that zones find pass; a damaged one is refused, or a solver that knows real numbers says it still is
one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from random import Random

import pytest
import z3

from logiccheck.audit.certificate import ALL, NONE, Ahead, Certificate, Choice, Cover, Part
from logiccheck.audit.check import Audit, Flaw
from logiccheck.audit.relation import Broken
from logiccheck.base.budget import Budget
from logiccheck.engine.certify import Doubts
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.deadlines import Tracked
from logiccheck.engine.pdr import Proof
from logiccheck.engine.question import Questions
from logiccheck.engine.refine import TimedProof
from logiccheck.engine.settle import settle
from logiccheck.engine.zones.covering import cover
from logiccheck.engine.zones.decide import Covered, decide
from logiccheck.lang.program import Program
from logiccheck.model.circuit.reaction import Forms
from tests.audit.realcheck import RealCheck
from tests.audit.test_check import audit, vehicle
from tests.bench.families import family
from tests.engine.realproof import Side
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SECONDS = 60.0
SEEDS = 24
TIMES = 12  # of damage to each cover

# While the relay holds and the wire is dead, the run of the requirement goes on beside its own and ends with it.
CHOICES = (
    Choice("it:run.over", NONE, ALL),  # 2: not over
    Choice("it:run.run", NONE, 2),  # 3: nor running
    Choice("it:run.run", 2, NONE),  # 4: running
    Choice("k.run", NONE, 3),  # 5: neither runs
    Choice("k.on", NONE, 4),  # 6: and the wire is dead
    Choice("k.run", 6, NONE),  # 7: both run
)
TOGETHER = ((Ahead("it:run", "k", 0, or_same=False), False), (Ahead("it:run", "k", 0, or_same=True), True))
BY_HAND = Cover(CHOICES, (Part(5), Part(7, TOGETHER)))


def flaw(made: Cover, requirement: str = "never k while not a for longer than 5 s") -> Flaw | None:
    program = vehicle(requirement)
    found = audit(program).check(Broken(program.requirements[0]), Certificate(covers=(made,)), Budget(SECONDS))
    return None if found is None else found.flaw


def test_a_cover_passes() -> None:
    assert flaw(BY_HAND) is None


def test_a_requirement_that_asks_more() -> None:
    assert flaw(BY_HAND, "never k while not a for longer than 4.999999 s") is Flaw.CLOSURE


def test_what_is_not_covered_is_found() -> None:
    """Without a part of it, or with a part that is too narrow; without what holds before time 0."""
    assert flaw(replace(BY_HAND, parts=BY_HAND.parts[:1])) is Flaw.CLOSURE
    assert flaw(replace(BY_HAND, parts=BY_HAND.parts[1:])) is Flaw.INITIATION
    narrow = Part(7, (*TOGETHER, (Ahead("k", None, 4_999_999, or_same=True), False)))
    assert flaw(replace(BY_HAND, parts=(Part(5), narrow))) is Flaw.CLOSURE


def test_what_covers_too_much_is_found() -> None:
    """All that can be stored at all is kept by every moment, and excludes nothing."""
    assert flaw(Cover((), (Part(ALL),))) is Flaw.SAFETY
    assert flaw(Cover((), (Part(NONE),))) is Flaw.INITIATION
    assert flaw(Cover((), ())) is Flaw.INITIATION


@pytest.mark.parametrize(
    "made",
    [
        Cover((Choice("nothing", ALL, ALL),), (Part(2),)),
        Cover((Choice("k.run", 2, ALL),), (Part(2),)),
        Cover((Choice("k.run", 3, ALL), Choice("k.on", ALL, ALL)), (Part(2),)),
        Cover((Choice("k.run", -1, ALL),), (Part(2),)),
        Cover((), (Part(2),)),
        Cover((), (Part(-1),)),
        Cover((), (Part(ALL, ((Ahead("nothing", None, 0, or_same=True), False),)),)),
        Cover((), (Part(ALL, ((Ahead("k", "nothing", 0, or_same=True), False),)),)),
    ],
)
def test_a_cover_that_speaks_of_nothing(made: Cover) -> None:
    """Of what is not stored, or of a sort that is not known where it is named."""
    assert flaw(made) is Flaw.NAMES


# by another solver


class RealCover(RealCheck):
    """One step of the exact cone from any state in the cover."""

    def __init__(self, cone: Cone, made: Cover) -> None:
        nothing = TimedProof(cone, Tracked(exact(cone)), Proof(()))
        super().__init__(cone, nothing, Certificate(), ())
        self.solver.add(self.inside(made, self.before))

    def inside(self, made: Cover, side: Side) -> z3.BoolRef:
        sorts = [z3.BoolVal(False), z3.BoolVal(True)]
        for choice in made.choices:
            sorts.append(z3.If(self.named(choice.bit, side), sorts[choice.then], sorts[choice.other]))
        return z3.Or([z3.And(sorts[p.sort], *(self.named(n, side) == so for n, so in p.apart)) for p in made.parts])


def holds(cone: Cone, made: Cover) -> bool:
    """It holds at the start, after any step, and nothing bad happens in it."""
    sorts = [False, True]
    for choice in made.choices:
        sorts.append(sorts[choice.other])
    if not any(sorts[part.sort] and not any(so for _, so in part.apart) for part in made.parts):
        return False
    step = RealCover(cone, made)
    return not step.possible(step.lit(step.base.bad)) and not step.possible(z3.Not(step.inside(made, step.after)))


def covers(program: Program) -> Iterator[tuple[Audit, Broken, Cone, Certificate]]:
    """The cover of each question of a program whose answer is one, as the audit gets it."""
    depth = settle(program, Forms())
    if not depth.always:
        return
    doubts = Doubts(program, depth.moment)
    doubts.settling_always(depth.moment, Budget(SECONDS))
    asked = Questions(depth.moment, settles=True)
    for each in asked.all:
        cone = asked.cone(each, each.bad)
        found = decide(exact(cone), Budget(SECONDS)) if each.bad and not each.builtin else None
        if isinstance(found, Covered):
            lines = frozenset((c.line.kind, c.line.which) for c in cone.constraints if c.line is not None)
            yield doubts._audit, Broken(each.requirement), cone, Certificate((), lines, (cover(found),))


def bound_moved(made: Cover, random: Random) -> Cover:
    k, i = random.choice([(k, i) for k, part in enumerate(made.parts) for i, _ in enumerate(part.apart)])
    name, so = made.parts[k].apart[i]
    moved = name._replace(bound=name.bound + random.choice([-1, 1]))
    if random.random() < 0.5:
        moved = name._replace(or_same=not name.or_same)
    apart = (*made.parts[k].apart[:i], (moved, so), *made.parts[k].apart[i + 1 :])
    return replace(made, parts=(*made.parts[:k], made.parts[k]._replace(apart=apart), *made.parts[k + 1 :]))


def part_dropped(made: Cover, random: Random) -> Cover:
    k = random.randrange(len(made.parts))
    return replace(made, parts=made.parts[:k] + made.parts[k + 1 :])


def choice_turned(made: Cover, random: Random) -> Cover:
    k = random.randrange(len(made.choices))
    bit, then, other = made.choices[k]
    return replace(made, choices=(*made.choices[:k], Choice(bit, other, then), *made.choices[k + 1 :]))


DAMAGES: list[Callable[[Cover, Random], Cover]] = [bound_moved, part_dropped, choice_turned]


def test_covers_of_zones_pass_and_damaged_ones_do_not() -> None:
    """Of families and of random programs: the audit and the other solver are of one mind."""
    texts = [family(name) for name in ("count:2", "chain:3", "two:1", "mix:3", "indep:3")]
    texts += [random_program(seed).text for seed in range(SEEDS)]
    random, tally = Random(7), Counter[str]()
    for text in texts:
        for made, question, cone, whole in covers(loaded(text)):
            assert made.check(question, whole, Budget(SECONDS)) is None
            tally["whole"] += 1
            if len(whole.covers[0].parts) > 20:
                continue
            assert holds(cone, whole.covers[0])
            for damage in DAMAGES * TIMES:
                if damage is bound_moved and not any(part.apart for part in whole.covers[0].parts):
                    continue
                broken = damage(whole.covers[0], random)
                refusal = made.check(question, replace(whole, covers=(broken,)), Budget(SECONDS))
                assert refusal is not None or holds(cone, broken), (text, damage.__name__, broken)
                tally[f"{damage.__name__}, {'still one' if refusal is None else 'refused'}"] += 1
    assert tally["whole"] > 20, tally
    for damage in DAMAGES:
        assert tally[f"{damage.__name__}, refused"] > 20, tally
