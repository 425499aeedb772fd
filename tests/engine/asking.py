"""The questions of a program as the engine sees them, for tests that look at its parts."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from logiccheck.base.budget import Budget
from logiccheck.engine.certify import Doubts
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.reach import Happens, reach
from logiccheck.engine.troubles import settled_moment
from logiccheck.lang.program import Program
from logiccheck.model.circuit.reaction import Forms
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SECONDS = 5.0


def asked_and_doubted(program: Program) -> tuple[Questions, Doubts]:
    """All questions of a program, and the audit of what is found."""
    moment, doubts, trouble = settled_moment(program, Forms(), Budget(SECONDS))
    return Questions(moment, settles=trouble is None), doubts


def questions(program: Program) -> Questions:
    """All questions of a program."""
    return asked_and_doubted(program)[0]


def question(program: Program, name: str) -> tuple[Questions, Question]:
    """All questions of a program, and the one of this requirement."""
    asked = questions(program)
    return asked, next(q for q in asked.all if q.requirement.name == name)


def stories(program: Program) -> Iterator[tuple[Questions, Question, Happens]]:
    """Every question of a program to which the answer is a story, with the shortest trace."""
    asked, doubts = asked_and_doubted(program)
    if not asked.settles:
        return
    for each in asked.all:
        told = lambda each=each: asked.told(each)  # noqa: E731
        answer = reach(asked.cone(each.bad), Budget(SECONDS), doubts.broken(each), told)
        if isinstance(answer, Happens):
            yield asked, each, answer


@cache
def random_stories(count: int) -> list[tuple[Questions, Question, Happens]]:
    """As `stories`, of the first so many random programs."""
    return [story for seed in range(count) for story in stories(loaded(random_program(seed).text))]
