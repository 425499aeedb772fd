"""Checks a whole program: what blocks verdicts first, then one verdict a requirement, each story heard before it is
told."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.reach import Happens, Impossible, Unknown, reach
from logiccheck.engine.replay import confirm
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace
from logiccheck.engine.troubles import contradiction, involved, settled_moment, stopped_time
from logiccheck.engine.verdict import Check, Kind, Obstacle, Trouble, Undecided, Verdict
from logiccheck.lang.program import Possible, Program
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.story import Story

DEFAULT_SECONDS = 10.0


def check_program(
    program: Program,
    seconds_each: float = DEFAULT_SECONDS,
    progress: Callable[[str], None] | None = None,
    only: Collection[str] | None = None,
) -> Check:
    """Decides every requirement of the program (or those named in `only`), each within `seconds_each` seconds.

    `progress` is called with the name of what is looked at next. A KeyboardInterrupt ends the search: what was decided
    stays, the rest is not decided.
    """
    return _Checker(
        program, seconds_each, progress or (lambda _: None), frozenset(only) if only is not None else None
    ).run()


@dataclass(slots=True)
class _Checker:
    program: Program
    seconds: float
    progress: Callable[[str], None]
    only: frozenset[str] | None

    def run(self) -> Check:
        forms = Forms()
        self.progress("settling")
        moment, trouble = settled_moment(self.program, forms, Budget(self.seconds))
        questions = Questions(moment, settles=trouble is None, only=self.only)
        troubles = [trouble] if trouble is not None else []
        contradicts = contradiction(questions)
        if contradicts is not None:
            blocked = tuple(_blocked(q, Obstacle.CONTRADICTION) for q in questions.all)
            return Check((*troubles, contradicts), blocked)
        self.progress("what is given")
        stop, doubtful = stopped_time(self.program, questions, Budget(self.seconds))
        troubles += [stop] if stop is not None else []
        verdicts, interrupted = self._verdicts(questions)
        pairs = zip(questions.all, verdicts, strict=True)
        weighed = tuple(_weigh(questions, question, verdict, troubles, doubtful) for question, verdict in pairs)
        return Check(tuple(troubles), weighed, interrupted)

    def _verdicts(self, questions: Questions) -> tuple[list[Verdict], bool]:
        verdicts: list[Verdict] = []
        try:
            for question in questions.all:
                self.progress(question.requirement.name)
                budget = Budget(self.seconds)
                verdict = self._decide(questions, question, budget)
                verdicts.append(replace(verdict, seconds=budget.used, builtin=question.builtin))
        except KeyboardInterrupt:
            rest = questions.all[len(verdicts) :]
            verdicts += [Verdict(q.requirement, Kind.NOT_DECIDED, undecided=Undecided.INTERRUPTED) for q in rest]
            return verdicts, True
        return verdicts, False

    def _decide(self, questions: Questions, question: Question, budget: Budget) -> Verdict:
        requirement = question.requirement
        cone = questions.cone(question.bad)
        answer = reach(cone, budget)
        wanted = isinstance(requirement.form, Possible)
        match answer:
            case Happens():
                story = self._story(question, cone, answer.trace)
                covered = story.moments - 1
                return Verdict(requirement, Kind.PROVED if wanted else Kind.FAILS, story, covered=covered)
            case Unknown():
                return Verdict(requirement, Kind.NOT_DECIDED, undecided=answer.why, covered=answer.covered)
            case Impossible():
                if wanted:
                    return Verdict(requirement, Kind.FAILS)
                return self._with_a_case(questions, question, budget)

    def _story(self, question: Question, cone: Cone, trace: Trace) -> Story:
        overdue = not _holds_last(cone, trace, question.breach.now)
        story = tell(cone, trace, overdue, involved(cone))
        confirm(self.program, cone, story, question.requirement.form)
        return story

    def _with_a_case(self, questions: Questions, question: Question, budget: Budget) -> Verdict:
        """What was proved says something only if each of its cases can occur."""
        requirement = question.requirement
        for case in question.cases:
            answer = reach(questions.cone(case.occurs), budget)
            if isinstance(answer, Impossible):
                return Verdict(requirement, Kind.NO_CASE, empty=case.part)
            if isinstance(answer, Unknown):
                return Verdict(requirement, Kind.NOT_DECIDED, undecided=answer.why)
        return Verdict(requirement, Kind.PROVED)


def _holds_last(cone: Cone, trace: Trace, lit: int) -> bool:
    """The literal at the last moment of a trace."""
    stored = {b.now >> 1: False for b in cone.bits}
    following = [b.next for b in cone.bits]
    value = False
    for inputs in trace:
        values = cone.aig.evaluate([*following, lit], {**stored, **inputs})
        value = values[-1]
        stored = {b.now >> 1: v for b, v in zip(cone.bits, values, strict=False)}
    return value


def _blocked(question: Question, obstacle: Obstacle) -> Verdict:
    return Verdict(question.requirement, Kind.BLOCKED, obstacle=obstacle, builtin=question.builtin)


def _weigh(
    questions: Questions, question: Question, verdict: Verdict, troubles: list[Trouble], doubtful: frozenset[str]
) -> Verdict:
    """A failure whose own story settles and meets what is given stays; all else rests on what is in trouble."""
    if verdict.kind is Kind.FAILS and verdict.story is not None:
        return verdict
    lines: set[str] | None = None
    for trouble in troubles:
        if trouble.obstacle in (Obstacle.UNSETTLED, Obstacle.UNSETTLED_UNKNOWN):
            return replace(verdict, kind=Kind.BLOCKED, obstacle=trouble.obstacle, story=None, undecided=None)
        lines = lines or _rests_on(questions, question)
        if lines & set(trouble.givens):
            return replace(verdict, kind=Kind.BLOCKED, obstacle=trouble.obstacle, story=None, undecided=None)
    if doubtful and verdict.kind is not Kind.NOT_DECIDED and doubtful & _rests_on(questions, question):
        return replace(verdict, kind=Kind.NOT_DECIDED, undecided=Undecided.TIME_MAY_STOP, story=None)
    return verdict


def _rests_on(questions: Questions, question: Question) -> set[str]:
    """The lines of what is given that touch a question."""
    return {c.text for c in questions.cone(question.bad).constraints if c.text}
