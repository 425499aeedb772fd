"""Small edits of random programs: what is noticed, is without effect, or differs, held against other ways to find out."""

from __future__ import annotations

from random import Random

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import SHORT_CIRCUIT, Check, Kind
from logiccheck.explain.edit import edited
from logiccheck.explain.guarding.deciding import Deciding, Decision, NoEffect, Open, Unnoticed
from logiccheck.explain.guarding.guarding import read
from logiccheck.explain.guarding.noticing import BUILT_IN, Noticed, Watch
from logiccheck.explain.guarding.small import small_edits
from logiccheck.explain.guarding.unlike import told_apart
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program
from tests.oracle.programs import random_program
from tests.study.walking_apart import walk

FILE = "random.circuit"
WALKS = 60


def proved(check: Check) -> set[str]:
    return {v.requirement.name for v in check.verdicts if v.kind is Kind.PROVED}


def complaint(before: Program, found: Check, after: Program, decision: Decision) -> str | None:
    """What is wrong with a decision."""
    again = check_program(after, 10)
    fail = {v.requirement.name for v in again.verdicts if v.kind is Kind.FAILS}
    idle = {v.requirement.name for v in found.verdicts if v.kind is Kind.NO_CASE}
    lost = (proved(found) - proved(again)) | (idle & fail)
    undecided = {v.requirement.name for v in again.verdicts if v.kind is Kind.NOT_DECIDED}
    match decision:
        case Noticed(by=by):
            stands = by in BUILT_IN.values() and not again.troubles
            return (
                f"noticed by {by}, not so" if by not in {*lost, SHORT_CIRCUIT, *BUILT_IN.values()} or stands else None
            )
        case Open():
            return None
    if lost - undecided or again.troubles:
        return f"not noticed: {lost}, {again.troubles}"
    if isinstance(decision, Unnoticed):
        difference = decision.difference
        return None if told_apart(before, after, difference.story) is not None else f"does not differ: {difference}"
    return next((told for number in range(WALKS) if (told := walk(before, after, number)) is not None), None)


def complaints(seed: int, most: int) -> tuple[list[type[Decision]], list[str]]:
    """What became of some edits of the program of this seed, and what is wrong with that."""
    text = random_program(seed).text
    program = load_text(text, FILE).program
    assert program is not None
    found = check_program(program, 10)
    if found.troubles:
        return [], []
    deciding = Deciding(Watch(program, found, 10), 10)
    kinds: list[type[Decision]] = []
    wrong = []
    edits = [*small_edits(program, {FILE: text})]
    for small in Random(seed).sample(edits, min(most, len(edits))):
        after = read(FILE, edited(small.edit, {FILE: text}).files)
        if after is None:
            continue
        decision = deciding.decide(after)
        kinds.append(type(decision))
        told = complaint(program, found, after, decision)
        if told is not None:
            wrong.append(f"program {seed}, {small}: {decision}: {told}")
    return kinds, wrong


@pytest.mark.parametrize("seed", [70_001, 70_002, 70_003, 70_004, 70_005, 70_006])
def test_what_is_said_of_edits_is_so(seed: int) -> None:
    """Of each, of whatever it is."""
    _, wrong = complaints(seed, 6)
    assert not wrong


@pytest.mark.slow
def test_what_is_said_of_many_edits_is_so() -> None:
    """Of all kinds there are some."""
    each = [complaints(seed, 8) for seed in range(71_000, 71_015)]
    kinds = [kind for found, _ in each for kind in found]
    assert {Noticed, NoEffect, Unnoticed} <= {*kinds}
    assert not [line for _, wrong in each for line in wrong]
