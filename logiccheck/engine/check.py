"""Checks a whole program: what blocks verdicts first, then one verdict a requirement, each story heard before it is
told."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace

from logiccheck.base.budget import Budget
from logiccheck.engine.asides import Teller
from logiccheck.engine.certify import Doubts
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.occur import MOST_MOMENTS, Occurrences
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.reach import Happens, Impossible, Unknown, reach, search
from logiccheck.engine.replay import StoryRefused, confirm
from logiccheck.engine.stops import Doubtful
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import holds_last
from logiccheck.engine.troubles import contradictions, involved, settled_moment, stopped_time
from logiccheck.engine.verdict import Check, Kind, Obstacle, Trouble, Undecided, Verdict
from logiccheck.lang.program import Possible, Program, Requirement
from logiccheck.model.circuit.aig import Lit
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.story import Story

DEFAULT_SECONDS = 10.0
ASIDE_SHARE = 0.2  # of the time for a requirement, beyond it, for what is said beside its story


def check_program(
    program: Program,
    seconds_each: float = DEFAULT_SECONDS,
    progress: Callable[[str], None] | None = None,
    only: Collection[str] | None = None,
    engines: Collection[Engine] = BOTH,
) -> Check:
    """Decides every requirement of the program (or those named in `only`), each within `seconds_each` seconds.

    `engines` may prove it. `progress` is called with the name of what is looked at next. A KeyboardInterrupt ends the
    search: what was decided stays, the rest is not decided. So is what needs more memory than there is.
    """
    asked = frozenset(only) if only is not None else None
    return _Checker(program, seconds_each, progress or (lambda _: None), asked, frozenset(engines)).run()


@dataclass(slots=True)
class _Checker:
    program: Program
    seconds: float
    progress: Callable[[str], None]
    only: frozenset[str] | None
    engines: frozenset[Engine]
    doubts: Doubts = field(init=False)  # known once it is known how moments settle
    _occurrences: Occurrences | None = None

    def run(self) -> Check:
        try:
            return self._check()
        except KeyboardInterrupt:
            return Check((), self._none(Undecided.INTERRUPTED), interrupted=True)
        except MemoryError:
            return Check((), self._none(Undecided.MEMORY))

    def _none(self, why: Undecided) -> tuple[Verdict, ...]:
        """No verdict on anything that was asked."""
        asked = [r for r in self.program.requirements if self.only is None or r.name in self.only]
        return tuple(_open(requirement, why) for requirement in asked)

    def _check(self) -> Check:
        forms = Forms()
        self.progress("settling")
        moment, trouble, self.doubts = settled_moment(self.program, forms, Budget(self.seconds))
        questions = Questions(moment, settles=trouble is None, only=self.only)
        troubles = [trouble] if trouble is not None else []
        troubles += contradictions(questions)
        self.progress("what is given")
        stops, doubtful = stopped_time(questions, self.doubts, Budget(self.seconds))
        troubles += stops
        verdicts, interrupted = self._verdicts(questions)
        pairs = zip(questions.all, verdicts, strict=True)
        weighed = tuple(_weigh(questions, question, verdict, troubles, doubtful) for question, verdict in pairs)
        return Check(tuple(troubles), weighed, interrupted, self.doubts.grounds)

    def _verdicts(self, questions: Questions) -> tuple[list[Verdict], bool]:
        verdicts: list[Verdict] = []
        try:
            for question in questions.all:
                self.progress(question.requirement.name)
                budget = Budget(self.seconds)
                try:
                    verdict = self._decide(questions, question, budget)
                except MemoryError:
                    verdict = _open(question.requirement, Undecided.MEMORY)
                verdicts.append(replace(verdict, seconds=budget.used, builtin=question.builtin))
        except KeyboardInterrupt:
            rest = questions.all[len(verdicts) :]
            verdicts += [replace(_open(q.requirement, Undecided.INTERRUPTED), builtin=q.builtin) for q in rest]
            return verdicts, True
        return verdicts, False

    def _decide(self, questions: Questions, question: Question, budget: Budget) -> Verdict:
        requirement = question.requirement
        answer = reach(
            questions.cone(question, question.bad),
            budget,
            self.doubts.broken(question),
            lambda: questions.told(question),
            questions.settles,
            self.engines,
        )
        wanted = isinstance(requirement.form, Possible)
        match answer:
            case Happens():
                story = self._story(questions, question, answer, budget)
                if story is None:
                    return Verdict(requirement, Kind.BLOCKED, obstacle=Obstacle.UNSETTLED)
                verdict = Verdict(requirement, Kind.FAILS, story, covered=story.moments - 1, engines=answer.engines)
                if not wanted:
                    return verdict
                self.doubts.shown(question, None, story.moments)
                return self._with_a_case(questions, question, replace(verdict, kind=Kind.PROVED), budget)
            case Unknown():
                return Verdict(requirement, Kind.NOT_DECIDED, undecided=answer.why, covered=answer.covered)
            case Impossible(engines):
                if wanted:
                    return Verdict(requirement, Kind.FAILS, engines=engines)
                proved = Verdict(requirement, Kind.PROVED, engines=engines)
                return self._with_a_case(questions, question, proved, budget)

    def _story(self, questions: Questions, question: Question, found: Happens, budget: Budget) -> Story | None:
        """The story as confirmed. In a vehicle of which something may never settle the first one found may end there;
        then another is sought in which all settles, and None given if there is none."""
        try:
            return self._confirmed(questions, question, found)
        except StoryRefused:
            if questions.settles:
                raise
        again = search(questions.told(question, whole=True), budget, known=False)
        return self._confirmed(questions, question, again) if isinstance(again, Happens) else None

    def _confirmed(self, questions: Questions, question: Question, found: Happens) -> Story:
        overdue = not holds_last(found.cone, found.trace, question.breach.now)
        story = tell(found.cone, found.trace, overdue, involved(found.cone))
        unrest = questions.about_unrest() if not questions.settles else ()

        def check(told: Story) -> None:
            confirm(self.program, found.cone, told, question.requirement.form, unrest)

        check(story)
        teller = Teller(self.program, found.cone, check, questions.settles, Budget(ASIDE_SHARE * self.seconds))
        return teller.with_aside(found.trace, story, found.settled)

    def _occurs(self, questions: Questions, situation: Lit) -> bool:
        """A quick look whether it occurs; where moments may not settle a story is not just any sequence of them."""
        if not questions.settles:
            return False
        if self._occurrences is None:
            situations = {case.occurs for question in questions.all for case in question.cases}
            cone = questions.reach.cone(questions.moment.system.aig.any_of(sorted(situations)))
            self._occurrences = Occurrences(cone, situations, self.seconds)
        return self._occurrences.occurs(situation)

    def _with_a_case(self, questions: Questions, question: Question, proved: Verdict, budget: Budget) -> Verdict:
        """What was proved says something only if each of its cases can occur."""
        for number, case in enumerate(question.cases):
            if self._occurs(questions, case.occurs):
                self.doubts.shown(question, number, MOST_MOMENTS)
                continue
            doubt = self.doubts.case(question, number)
            answer = reach(questions.cone(question, case.occurs), budget, doubt, engines=self.engines)
            if isinstance(answer, Impossible):
                engines = proved.engines | answer.engines
                return replace(proved, kind=Kind.NO_CASE, empty=case.part, engines=engines)
            if isinstance(answer, Unknown):
                return replace(proved, kind=Kind.NOT_DECIDED, undecided=answer.why)
            self.doubts.shown(question, number, len(answer.trace))
        return proved


def _open(requirement: Requirement, why: Undecided) -> Verdict:
    return Verdict(requirement, Kind.NOT_DECIDED, undecided=why)


def _weigh(
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
