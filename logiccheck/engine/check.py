"""Checks a whole program: what blocks verdicts, one verdict a requirement, and which of them that leaves standing."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, field, replace
from typing import Protocol

from logiccheck.audit.grounds import Grounds
from logiccheck.base.budget import Budget
from logiccheck.engine.decider import Asked, Decided, Decider, undecided
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.stops import Doubtful
from logiccheck.engine.troubles import contradictions, stopped_time
from logiccheck.engine.verdict import Check, Kind, Obstacle, Trouble, Undecided, Verdict
from logiccheck.lang.program import Program

DEFAULT_SECONDS = 10.0


class Crew(Protocol):
    """Others that decide questions, at the same time."""

    def begin(self, asked: Asked, names: list[str]) -> Iterator[tuple[int, Decided | None]]:
        """Set to work at once on all questions, which have these names, and give each answer with its number as it
        comes; None for a question that was lost. Whoever stops asking ends the work."""
        ...


def check_program(
    program: Program,
    seconds_each: float = DEFAULT_SECONDS,
    progress: Callable[[str], None] | None = None,
    only: Collection[str] | None = None,
    engines: Collection[Engine] = BOTH,
    crew: Crew | None = None,
    heard: Callable[[Verdict], None] | None = None,
) -> Check:
    """Decides every requirement of the program (or those named in `only`), each within `seconds_each` seconds.

    `engines` may prove it. `progress` is called with the name of what is looked at next. A KeyboardInterrupt ends the
    search: what was decided stays, the rest is not decided. So is what needs more memory than there is. A `crew` does
    not change what is found. `heard` is called with each verdict as it is found, before it is known whether something
    blocks it; an exception of its own ends the check.
    """
    asked = Asked(program, seconds_each, frozenset(only) if only is not None else None, frozenset(engines))
    try:
        return _Checker(asked, progress or (lambda _: None), crew, heard or (lambda _: None)).check()
    except KeyboardInterrupt:
        return Check((), asked.open(Undecided.INTERRUPTED), interrupted=True)
    except MemoryError:
        return Check((), asked.open(Undecided.MEMORY))


@dataclass(slots=True)
class _Checker:
    """`decided`: what came of each question so far, by its number."""

    asked: Asked
    progress: Callable[[str], None]
    crew: Crew | None
    heard: Callable[[Verdict], None]
    decided: dict[int, Decided] = field(default_factory=dict)

    def check(self) -> Check:
        self.progress("settling")
        decider = Decider(self.asked)
        questions = decider.questions
        names = [question.requirement.name for question in questions.all]
        answers = self._alone(decider, names) if self.crew is None else self.crew.begin(self.asked, names)
        troubles = [decider.trouble] if decider.trouble is not None else []
        troubles += contradictions(questions)
        self.progress("what is given")
        stops, doubtful = stopped_time(questions, decider.doubts, Budget(self.asked.seconds))
        troubles += stops
        time = decider.doubts.taken()
        interrupted = self._gather(questions, answers)
        each = [self.decided[number] for number in range(len(names))]
        pairs = zip(questions.all, each, strict=True)
        weighed = tuple(weigh(questions, question, one.verdict, troubles, doubtful) for question, one in pairs)
        found = (*decider.settling, *time, *(ground for one in each for ground in one.found))
        bugs = tuple(one.bug for one in each if one.bug is not None)
        grounds = Grounds(decider.doubts.repeats, found)
        return Check(tuple(troubles), weighed, interrupted, grounds, bugs, questions.unasked)

    def _alone(self, decider: Decider, names: list[str]) -> Iterator[tuple[int, Decided]]:
        for number, name in enumerate(names):
            self.progress(name)
            yield number, decider.decide(number)

    def _gather(self, questions: Questions, answers: Iterator[tuple[int, Decided | None]]) -> bool:
        """Fills `decided`; whether it was interrupted."""
        why, interrupted = Undecided.LOST, False
        try:
            for number, one in answers:
                if one is not None:
                    self.decided[number] = one
                    self.heard(one.verdict)
        except KeyboardInterrupt:
            why, interrupted = Undecided.INTERRUPTED, True
        for number, question in enumerate(questions.all):
            if number not in self.decided:
                verdict = replace(undecided(question.requirement, why), builtin=question.builtin)
                self.decided[number] = Decided(verdict)
        return interrupted


def weigh(
    questions: Questions, question: Question, verdict: Verdict, troubles: list[Trouble], doubtful: list[Doubtful]
) -> Verdict:
    """Where something may not settle, only a failure whose own story settles stays; nothing that rests on lines which
    contradict each other or stop time is a verdict."""
    lines = questions.lines(questions.matter(question)) if troubles or doubtful else set()
    for trouble in sorted(troubles, key=lambda t: not t.lines):  # no world at all comes before what would happen in it
        unsettled = trouble.obstacle in (Obstacle.UNSETTLED, Obstacle.UNSETTLED_UNKNOWN)
        failed = verdict.kind is Kind.FAILS and verdict.story is not None
        if (unsettled and not failed) or lines & set(trouble.lines):
            return replace(
                verdict, kind=Kind.BLOCKED, obstacle=trouble.obstacle, story=None, undecided=None, empty=None
            )
    for open_ in doubtful:
        if open_.touched & lines and verdict.kind is not Kind.NOT_DECIDED:
            in_doubt = tuple(line.text for line in open_.lines)
            return replace(verdict, kind=Kind.NOT_DECIDED, undecided=open_.why, doubtful=in_doubt, story=None)
    return verdict
