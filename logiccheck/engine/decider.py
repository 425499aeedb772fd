"""Decides the questions of one program, each by itself: a proof with its case, or a story heard before it is told."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.audit.grounds import Happens as Shown
from logiccheck.audit.grounds import Never
from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.frozen import frozen
from logiccheck.engine.asides import Teller
from logiccheck.engine.engines import Engine
from logiccheck.engine.occur import MOST_MOMENTS, Occurrences
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.reach import Happens, Impossible, Unknown, reach, search
from logiccheck.engine.replay import StoryRefused, confirm
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import holds_last
from logiccheck.engine.troubles import contradictions, involved, settled_moment
from logiccheck.engine.verdict import Kind, Obstacle, Undecided, Verdict
from logiccheck.lang.program import Possible, Program, Requirement
from logiccheck.model.circuit.aig import Lit
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.story import Aside, Story

ASIDE_SHARE = 0.2  # of the time for a requirement, beyond it, for what is said beside its story
HEAR_SHARE = 0.2  # of that time, also where it is over, to play the story that was found


@frozen
class Asked:
    """What a check is to decide: the requirements of a program (or those named in `only`), each within so many seconds,
    and which engines may prove it. It can be sent to another process."""

    program: Program
    seconds: float
    only: frozenset[str] | None
    engines: frozenset[Engine]

    def open(self, why: Undecided) -> tuple[Verdict, ...]:
        """No verdict on anything that is asked."""
        wanted = [r for r in self.program.requirements if self.only is None or r.name in self.only]
        return tuple(undecided(requirement, why) for requirement in wanted)


@frozen
class Decided:
    """The verdict on one question, and the proofs and stories found for it; or the mistake in this program that was met
    on the way."""

    verdict: Verdict
    found: tuple[Never | Shown, ...] = ()
    bug: Bug | None = None


class Decider:
    """Makes itself ready for the questions of one program; it is known from then on how moments settle.

    `trouble`: how they may fail to. `doubts` holds what was proved of that. `asides`: what is said beside a story is
    sought, too.
    """

    def __init__(self, asked: Asked) -> None:
        self.program, self.seconds, self.engines = asked.program, asked.seconds, asked.engines
        self.asides = True
        moment, self.trouble, self.doubts = settled_moment(self.program, Forms(), Budget(self.seconds))
        self.questions = Questions(moment, settles=self.trouble is None, only=asked.only)
        self.settling = self.doubts.taken()
        self._occurrences: Occurrences | None = None

    def ask_also(self, requirement: Requirement) -> int:
        """One more question, about the same program; its number. Its name must be one of its own."""
        self.doubts.ask_also(requirement)
        return self.questions.ask_also(requirement)

    def decide(self, number: int) -> Decided:
        """The question of that number; a mistake of ours costs no other question its verdict. May raise
        KeyboardInterrupt, or RecursionError, which is no mistake of ours."""
        question = self.questions.all[number]
        budget, bug = Budget(self.seconds), None
        try:
            verdict = self._decide(question, budget)
        except OutOfTime:
            verdict = undecided(question.requirement, Undecided.BUDGET)  # a story too long to be played within it
        except MemoryError:
            verdict = undecided(question.requirement, Undecided.MEMORY)
            self._occurrences = None  # it may have been left in the middle of a moment, without what is given there
        except RecursionError:
            raise
        except Exception as error:
            verdict = undecided(question.requirement, Undecided.OUR_BUG)
            bug = bug_of(error, question.requirement.name)
            self._occurrences = None
        found = self.doubts.taken()  # also where nobody wants it, for it is of this question
        verdict = replace(verdict, seconds=budget.used, builtin=question.builtin)
        return Decided(verdict, found) if bug is None else Decided(verdict, (), bug)

    def _decide(self, question: Question, budget: Budget) -> Verdict:
        questions, requirement = self.questions, question.requirement
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
                story = self._story(question, answer, budget)
                if story is None:
                    obstacle = Obstacle.CONTRADICTION if questions.settles else Obstacle.UNSETTLED
                    return Verdict(requirement, Kind.BLOCKED, obstacle=obstacle)
                verdict = Verdict(requirement, Kind.FAILS, story, covered=story.moments - 1, engines=answer.engines)
                if not wanted:
                    return verdict
                self.doubts.shown(question, None, story.moments)
                return self._with_a_case(question, replace(verdict, kind=Kind.PROVED), budget)
            case Unknown():
                return Verdict(requirement, Kind.NOT_DECIDED, undecided=answer.why, covered=answer.covered)
            case Impossible(engines):
                if wanted:
                    return Verdict(requirement, Kind.FAILS, engines=engines)
                proved = Verdict(requirement, Kind.PROVED, engines=engines)
                return self._with_a_case(question, proved, budget)

    def _story(self, question: Question, found: Happens, budget: Budget) -> Story | None:
        """The story as confirmed. In a vehicle of which something may never settle the first one found may end there;
        then another is sought in which all settles, and None given if there is none. Where what is given contradicts
        itself no whole vehicle settles lawfully, and so there is none either."""
        try:
            return self._confirmed(question, found, budget)
        except StoryRefused:
            if self.questions.settles:
                if contradictions(self.questions):
                    return None
                raise
        again = search(self.questions.told(question, whole=True), budget, known=False)
        return self._confirmed(question, again, budget) if isinstance(again, Happens) else None

    def _confirmed(self, question: Question, found: Happens, budget: Budget) -> Story:
        overdue = not holds_last(found.cone, found.trace, question.breach.now)
        story = tell(found.cone, found.trace, overdue, involved(found.cone))
        unrest = self.questions.about_unrest() if not self.questions.settles else ()

        hearing = Budget(max(budget.left, HEAR_SHARE * self.seconds))

        def check(told: Story) -> None:
            confirm(self.program, found.cone, told, question.requirement.form, unrest, hearing)

        check(story)
        if not self.asides:
            return replace(story, aside=Aside(found.settled))
        doubt = self.doubts.apart(question, found.cone)
        aside = hearing = Budget(ASIDE_SHARE * self.seconds)
        teller = Teller(self.program, found.cone, check, self.questions.settles, doubt, aside)
        return teller.with_aside(found.trace, story, found.settled)

    def _occurs(self, situation: Lit) -> bool:
        """A quick look whether it occurs; where moments may not settle a story is not just any sequence of them."""
        questions = self.questions
        if not questions.settles:
            return False
        if self._occurrences is None:
            situations = {case.occurs for question in questions.all for case in question.cases}
            cone = questions.reach.cone(questions.moment.system.aig.any_of(sorted(situations)))
            self._occurrences = Occurrences(cone, situations, self.seconds)
        return self._occurrences.occurs(situation)

    def _with_a_case(self, question: Question, proved: Verdict, budget: Budget) -> Verdict:
        """What was proved says something only if each of its cases can occur."""
        for number, case in enumerate(question.cases):
            if self._occurs(case.occurs):
                self.doubts.shown(question, number, MOST_MOMENTS)
                continue
            doubt = self.doubts.case(question, number)
            answer = reach(self.questions.cone(question, case.occurs), budget, doubt, engines=self.engines)
            if isinstance(answer, Impossible):
                engines = proved.engines | answer.engines
                return replace(proved, kind=Kind.NO_CASE, empty=case.part, engines=engines)
            if isinstance(answer, Unknown):
                return replace(proved, kind=Kind.NOT_DECIDED, undecided=answer.why)
            self.doubts.shown(question, number, len(answer.trace))
        return proved


def undecided(requirement: Requirement, why: Undecided) -> Verdict:
    return Verdict(requirement, Kind.NOT_DECIDED, undecided=why)
