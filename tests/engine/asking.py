"""The questions of a program as the engine sees them, for tests that look at its parts."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.budget import Budget
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.reach import Happens, reach
from logiccheck.engine.troubles import settled_moment
from logiccheck.lang.program import Program
from logiccheck.model.circuit.reaction import Forms
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SECONDS = 5.0


def questions(program: Program) -> Questions:
    """All questions of a program."""
    moment, trouble = settled_moment(program, Forms(), Budget(SECONDS))
    return Questions(moment, settles=trouble is None)


def question(program: Program, name: str) -> tuple[Questions, Question]:
    """All questions of a program, and the one of this requirement."""
    asked = questions(program)
    return asked, next(q for q in asked.all if q.requirement.name == name)


def stories(program: Program) -> Iterator[tuple[Questions, Question, Happens]]:
    """Every question of a program to which the answer is a story, with the shortest trace."""
    asked = questions(program)
    if not asked.settles:
        return
    for each in asked.all:
        answer = reach(asked.cone(each.bad), Budget(SECONDS), lambda each=each: asked.told(each))  # type: ignore[misc]
        if isinstance(answer, Happens):
            yield asked, each, answer


def random_stories(seeds: range) -> Iterator[tuple[Questions, Question, Happens]]:
    """As `stories`, of the random programs with these seeds."""
    for seed in seeds:
        yield from stories(loaded(random_program(seed).text))
