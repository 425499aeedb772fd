"""A question that is asked of a program later is answered as if the program had asked it itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.engine.decider import Asked, Decider
from logiccheck.engine.engines import BOTH
from logiccheck.lang.program import Program
from tests.oracle.cases import CASES, Case
from tests.oracle.loading import loaded


def decider(program: Program) -> Decider:
    """Ready for the questions of a program, with time for each."""
    return Decider(Asked(program, 30.0, None, frozenset(BOTH)))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_asked_later(case: Case) -> None:
    """The same verdict, and a story of as many moments, for every requirement of every small vehicle."""
    program = loaded(case.text)
    itself, later = decider(program), decider(replace(program, requirements=()))
    for number, requirement in enumerate(program.requirements):
        known = itself.decide(number).verdict
        answer = later.decide(later.ask_also(requirement)).verdict
        moments = [verdict.story and verdict.story.moments for verdict in (known, answer)]
        assert (answer.requirement, answer.kind, moments[1]) == (requirement, known.kind, moments[0])
