"""What is said of a story, against the exploration of all of them: changes, and whether it takes a coincidence."""

from __future__ import annotations

import itertools
from collections import Counter

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.lang.program import Program
from logiccheck.model.story import Answer
from tests.oracle.explorer import Explorer, TooBig
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.stories.exploring import Fewest, kernel_of, moments_apart

LIMIT = 4000


def told(program: Program) -> list[Verdict]:
    """The verdicts with a story, of a program in which everything settles and nothing stands in the way."""
    check = check_program(program, seconds_each=60)
    if check.troubles:
        return []
    return [v for v in check.verdicts if v.story is not None and v.kind in (Kind.FAILS, Kind.PROVED) and not v.builtin]


TWO_RUNS = """
vehicle "T"
world
    x contact
    y contact
    z contact
    at first x is off, y is off, z is off
harness
    source plus
    wire x_wire from plus when x
    wire y_wire from plus when y
controller "Box" powered by plus
    sense s from x_wire live
    sense t from y_wire live
    rule a = one_shot(s, 3 s)
    rule b = one_shot(t, 3 s)
given
    never z and not x
requirements
    danger ends_as_it_begins never falls(a) and rises(b)
    danger both never a and b
    danger at_once never rises(a) and rises(b)
    danger held never falls(a) and x
    danger with_it never z
    danger ended never falls(a) and falls(b)
"""

LONG_WAY = """
vehicle "T"
world
    x contact
    y contact
    p contact
    q contact
    at first x is off, y is off, p is off, q is off
harness
    source plus
    wire x_wire from plus when x
    wire y_wire from plus when y
    wire p_wire from plus when p
    wire q_wire from plus when q
controller "Box" powered by plus
    sense s from x_wire live
    sense t from y_wire live
    sense u from p_wire live
    sense v from q_wire live
    rule a = s or on_delay(u, 5 s)
    rule b = t or on_delay(v, 3 s)
requirements
    danger at_once never rises(a) and rises(b)
"""


def test_coincidences_by_hand() -> None:
    """H2 of the meaning, and its neighbours."""
    program, seen = loaded(TWO_RUNS), Counter[str]()
    verdicts = {verdict.requirement.name: verdict for verdict in told(program)}
    found = {}
    for name, verdict in verdicts.items():
        compare(program, verdict, seen)
        assert verdict.story is not None
        found[name] = (verdict.story.aside.apart, verdict.story.moments, verdict.story.aside.moments)
    assert found == {
        "ends_as_it_begins": (Answer.NO, 3, 0),
        "both": (Answer.YES, 2, 3),
        "at_once": (Answer.NO, 2, 0),
        "held": (None, 3, 0),
        "with_it": (Answer.YES, 2, 3),
        "ended": (Answer.NO, 3, 0),
    }


def test_a_long_way_round() -> None:
    """Instead of two hands at once, two timers that were started 2 s apart: two moments more for one coincidence."""
    program, seen = loaded(LONG_WAY), Counter[str]()
    (verdict,) = told(program)
    compare(program, verdict, seen)
    assert verdict.story is not None
    aside = verdict.story.aside
    assert (aside.apart, verdict.story.moments, aside.moments) == (Answer.YES, 2, 4)


def test_changes_and_coincidences() -> None:
    """Of random programs that are small enough."""
    seen: Counter[str] = Counter()
    for seed in range(60):
        program = loaded(random_program(seed).text)
        for verdict in told(program):
            try:
                compare(program, verdict, seen)
            except TooBig:
                seen["too big"] += 1
    assert seen["changes"] > 30, seen
    assert seen[Answer.YES.name] > 5, seen
    assert seen[Answer.NO.name] > 0, seen
    assert seen[Answer.OPEN.name] == 0, seen


def compare(program: Program, verdict: Verdict, seen: Counter[str]) -> None:
    story, requirement = verdict.story, verdict.requirement
    assert story is not None
    worlds = [dict(step.world) for step in story.steps]
    made = sum(a[name] != b[name] for a, b in itertools.pairwise(worlds) for name in a)
    explorer = Explorer(kernel_of(program, requirement), LIMIT)
    assert made == Fewest(explorer, story.moments).run(), (requirement.text, story)
    seen["changes"] += 1
    if story.aside.apart is None:
        return
    seen[story.aside.apart.name] += 1
    found = moments_apart(program, requirement, LIMIT)
    assert found == (story.aside.moments or None), (requirement.text, story)
