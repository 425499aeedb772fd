"""The questions of a program as the engine sees them, for tests that look at its parts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.settle import settle
from logiccheck.engine.shortest import Search
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.lang.program import Program
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.story import Story
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SECONDS = 5.0


def questions(program: Program) -> Questions:
    """All questions of a program; `settles` is false where not every memory settles."""
    depth = settle(program, Forms())
    return Questions(depth.moment, settles=depth.always)


def question(program: Program, name: str) -> tuple[Questions, Question]:
    """All questions of a program, and the one of this requirement."""
    asked = questions(program)
    return asked, next(q for q in asked.all if q.requirement.name == name)


def proof(base: Cone) -> TimedProof | None:
    """The proof that an exact cone has; None where it has none, or none in time."""
    try:
        result = Cegar(base).run(Budget(SECONDS))
    except OutOfTime:
        return None
    return result if isinstance(result, TimedProof) else None


@dataclass(frozen=True)
class Found:
    """A question to which the answer is a story: the cone that it is told on, and its shortest trace there."""

    program: Program
    question: Question
    cone: Cone
    trace: Trace

    @property
    def story(self) -> Story:
        overdue = not holds_last(self.cone, self.trace, self.question.breach.now)
        return tell(self.cone, self.trace, overdue, frozenset(self.cone.world))


def stories(program: Program) -> Iterator[Found]:
    """All of a program."""
    asked = questions(program)
    for each in asked.all if asked.settles else ():
        if each.bad and proof(exact(asked.cone(each, each.bad))) is None:
            cone = asked.told(each)
            search = Search(cone, Budget(SECONDS))
            trace = search.run()
            search.close()
            assert trace is not None
            yield Found(program, each, cone, trace)


@cache
def random_stories(count: int) -> list[Found]:
    """As `stories`, of the first so many random programs."""
    return [story for seed in range(count) for story in stories(loaded(random_program(seed).text))]
