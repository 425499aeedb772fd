"""Edits that are told of random programs, really typed: a fresh check proves the requirement, and nothing is worse."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain.edit import edited
from logiccheck.explain.edits import look_for_edits
from logiccheck.explain.exclusion import exclusions
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Possible, Program
from tests.oracle.programs import random_program

FILE = "random.circuit"
BEST_LAST = (Kind.FAILS, Kind.BLOCKED, Kind.NO_CASE, Kind.NOT_DECIDED, Kind.PROVED)


def loaded(text: str) -> Program:
    found = load_text(text, FILE)
    assert found.program is not None, [diagnostic.sentence for diagnostic in found.diagnostics]
    return found.program


def complaints(seed: int) -> tuple[int, list[str]]:
    """How many edits are told of the program of this seed, and what is not so of them."""
    text = random_program(seed).text
    program = loaded(text)
    found = check_program(program)
    before = {each.requirement.name: each.kind for each in found.verdicts}
    forms = {each.name: each.form for each in program.requirements}
    never = {name: form.q for name, form in forms.items() if isinstance(form, Possible) and before[name] is Kind.FAILS}
    excluded = exclusions(program, never, 10)
    mendings = look_for_edits(program, FILE, {FILE: text}, found, 60, 10, lambda _: None, excluded)
    told = [(name, edit) for name, mending in mendings.items() for edit in mending.edits]
    wrong = []
    for name, edit in told:
        check = check_program(loaded(edited(edit, {FILE: text}).files[FILE]))
        after = {each.requirement.name: each.kind for each in check.verdicts}
        worse = [n for n, k in before.items() if n in after and BEST_LAST.index(after[n]) < BEST_LAST.index(k)]
        if after.get(name, Kind.PROVED) is not Kind.PROVED or worse or check.troubles:
            wrong.append(f"program {seed}, {name}, {edit}: {after}, worse: {worse}")
    return len(told), wrong


@pytest.mark.parametrize("seed", [9001, 9003, 9005])
def test_what_is_told_is_so(seed: int) -> None:
    """Of these some edits are told."""
    count, wrong = complaints(seed)
    assert count
    assert not wrong


@pytest.mark.slow
def test_what_is_told_of_many_is_so() -> None:
    """Of these, of some."""
    each = [complaints(seed) for seed in range(9_100, 9_120)]
    assert sum(count for count, _ in each)
    assert not [line for _, wrong in each for line in wrong]
