"""Each requirement under each fault: the faults together, as long as none of them stands in the way of the others."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, field, replace

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.span import NOWHERE
from logiccheck.copper.faults.answers import Blocked, Fails, Holds, Open, Outcome
from logiccheck.copper.faults.asked import Asked, is_touching, possible
from logiccheck.copper.faults.cases import Case, Cases
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.counted import Counted, counted
from logiccheck.copper.faults.group import NAMES, Group, group
from logiccheck.copper.faults.parts import Fault, When
from logiccheck.copper.faults.there import MANNER, THERE, WHICH
from logiccheck.engine.cone import Cone
from logiccheck.engine.question import Question
from logiccheck.engine.replay import confirm
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.engine.troubles import involved
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Answer, Asking, BugMet, Never, Seen
from logiccheck.explain.asking import Blocked as Hindered
from logiccheck.explain.asking import Open as Unknown
from logiccheck.lang.matters import Names
from logiccheck.lang.program import Program
from logiccheck.lang.walk import form_expressions
from logiccheck.model.circuit.system import Line
from logiccheck.model.story import Story

FIRST = 4  # moments that are looked at before a proof is tried
BEYOND = 2  # moments beyond the last story that was found
MOST_MOMENTS = 24
PROOF_SHARE = 0.6  # of what is left, for one proof


@dataclass(slots=True)
class Deciding:
    """`outcomes`: by fault, number of what is asked, and manner. All takes as long as `budget` says, one question of
    all faults at most `seconds`."""

    program: Program
    asked: tuple[Asked, ...]
    faults: tuple[Fault, ...]
    budget: Budget
    seconds: float
    progress: Callable[[str], None]
    outcomes: dict[tuple[str, int, When], Outcome] = field(default_factory=dict)
    bugs: list[Bug] = field(default_factory=list)
    alone: list[Fault] = field(default_factory=list)  # asked by themselves
    hard: dict[tuple[Fault, When], list[int]] = field(default_factory=dict)  # where only some of all is
    _touching: list[frozenset[str]] = field(init=False)
    _single: dict[tuple[str, When], Program] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._touching = is_touching(self.program, self.faults, self.asked)

    def touches(self, fault: Fault, number: int) -> bool:
        """Whether the fault can matter by name to what is asked."""
        return fault.id in self._touching[number]

    def together(self) -> None:
        """All faults in one vehicle. May raise KeyboardInterrupt."""
        for each in self._groups(self.faults):
            for number, asked in enumerate(self.asked):
                self.progress(asked.name)
                self._ask(each, number)
        self.one_by_one(self.alone)
        for (fault, when), numbers in self.hard.items():
            self.progress(fault.id)
            self._ask_alone(fault, when, numbers)

    def one_by_one(self, faults: Iterable[Fault]) -> None:
        """Each fault, in each manner, in a vehicle of its own, while there is time. May raise KeyboardInterrupt."""
        for fault in faults:
            self.progress(fault.id)
            for when in fault.whens:
                self._ask_alone(fault, when)

    # ------------------------------------------------------------------------------------------------ in a group

    def _groups(self, faults: tuple[Fault, ...]) -> list[Group]:
        """Vehicles in which nothing stands in the way; a fault that does so is left to be asked by itself."""
        while faults:
            if not self.budget.left:
                return []
            found = group(self.program, faults, (each.of_any(faults) for each in self.asked), self._time())
            if found.is_sound:
                return [found]
            culprit = found.culprit()
            if culprit is None and len(faults) > 1:
                half = len(faults) // 2
                return [*self._groups(faults[:half]), *self._groups(faults[half:])]
            culprit = culprit or faults[0]
            self.alone.append(culprit)
            faults = tuple(fault for fault in faults if fault is not culprit)
        return []

    def _time(self) -> Budget:
        return Budget(min(self.seconds, self.budget.left))

    def _ask(self, found: Group, number: int) -> None:
        """One question of all faults of a group."""
        asked, budget = self.asked[number], self._time()
        cases = {
            found.case(fault, when)
            for fault in found.faults
            for when in asked.whens(fault)
            if self.touches(fault, number) and self._rests(fault, number, asked.whens(fault))
        }
        for fault in found.faults:
            for when in asked.whens(fault) if not self.touches(fault, number) else ():
                self.outcomes[fault.id, number, when] = Holds()
        if not cases:
            return
        question = found.decider.questions.all[number]
        search = Cases(found.decider.questions.told(question), NAMES, cases, budget)
        why = Undecided.BUDGET
        try:
            _Search(self, found, number, question, search, budget).run()
            why = Undecided.TIMER_ARITHMETIC
        except OutOfTime:
            pass
        except MemoryError:
            why = Undecided.MEMORY
        except KeyboardInterrupt:
            self._leave(found, number, search, Undecided.INTERRUPTED)
            raise
        except RecursionError:
            raise
        except Exception as error:
            self.bugs.append(bug_of(error, asked.name))
            why = Undecided.OUR_BUG
        finally:
            search.close()
        self._leave(found, number, search, why)

    def _rests(self, fault: Fault, number: int, whens: Iterable[When]) -> bool:
        """Whether what this question rests on holds of the fault, in each of these manners."""
        on = self.asked[number].rests_on
        return on is None or all(isinstance(self.outcomes.get((fault.id, on, when)), Holds) for when in whens)

    def _leave(self, found: Group, number: int, search: Cases, why: Undecided) -> None:
        for case in search.open_:
            fault, when = found.told(case)
            self.outcomes[fault.id, number, when] = Open(why)

    def single(self, fault: Fault, when: When) -> Program:
        """The vehicle that has this fault alone, with all that is asked."""
        if (fault.id, when) not in self._single:
            own = tuple(each.of(fault) for each in self.asked)
            self._single[fault.id, when] = together(replace(self.program, requirements=own), (fault,), when)
        return self._single[fault.id, when]

    def played(self, fault: Fault, when: When, number: int, cone: Cone, story: Story, budget: Budget) -> Story:
        """The story as it is told of the vehicle that has this fault alone, where the interpreter has played it."""
        vehicle = self.single(fault, when)
        own = _told_of(story, fault)
        given = range(len(self.program.givens), len(vehicle.givens))
        first = range(len(self.program.at_first), len(vehicle.at_first))
        also = [*(Line("given", i, "", NOWHERE) for i in given), *(Line("at first", i, "", NOWHERE) for i in first)]
        confirm(vehicle, cone, own, vehicle.requirements[number].form, also, budget)
        return own

    # --------------------------------------------------------------------------------------------------- by itself

    def _ask_alone(self, fault: Fault, when: When, some: Collection[int] | None = None) -> None:
        if not self.budget.left:  # to be ready for questions takes time, too
            return
        numbers = [number for number, asked in enumerate(self.asked) if when in asked.whens(fault)]
        numbers = [number for number in numbers if some is None or number in some]
        vehicle = self.single(fault, when)
        first = tuple(part for each in vehicle.requirements for part in form_expressions(each.form))
        asking = Asking(vehicle, first, self.budget, self.seconds, whole=True, asides=False)
        for number in numbers:
            if not self._rests(fault, number, (when,)):
                continue
            form = vehicle.requirements[number].form
            try:
                answer: Answer = asking.fails(form)
            except BugMet as met:
                self.bugs.append(met.bug)
                answer = Unknown(Undecided.OUR_BUG)
            self.outcomes[fault.id, number, when] = _outcome(answer, possible(form))


def _outcome(answer: Answer, wanted: bool) -> Outcome:
    match answer:
        case Seen(story):
            return Holds() if wanted else Fails(story)
        case Never():
            return Fails(None) if wanted else Holds()
        case Hindered(by):
            return Blocked(by)
        case Unknown(why):
            return Open(why)


def _told_of(story: Story, fault: Fault) -> Story:
    """The story of a vehicle in which one of several faults is there, as that of the vehicle with this fault."""
    ours = {WHICH, MANNER, THERE}
    steps = tuple(
        replace(
            step, world=(*(each for each in step.world if each[0] not in ours), (fault.id, dict(step.world)[THERE]))
        )
        for step in story.steps
    )
    return replace(story, steps=steps, involved=(story.involved - ours) | {fault.id})


@dataclass(slots=True)
class _Search:
    """One question of all faults of a group."""

    deciding: Deciding
    group: Group
    number: int
    question: Question
    search: Cases
    budget: Budget
    here: Counted | None = None  # once it was asked for

    def run(self) -> None:
        """Until each case is decided; those that are not stay open. May raise OutOfTime."""
        while self.search.open_ and self.search.moments < max(FIRST, self.search.last + BEYOND):
            self._deeper()
        waiting = [sorted(self.search.open_)]
        while waiting:
            self.budget.check()
            cases = [case for case in waiting.pop() if case in self.search.open_]
            if not cases:
                continue
            proved = self.group.prove(self.question, cases, self.budget.part(PROOF_SHARE))
            if proved:
                self._proved(cases)
            elif proved is False and self._until_found():
                waiting.append(cases)
            elif len(cases) > 1:
                waiting += [cases[len(cases) // 2 :], cases[: len(cases) // 2]]
            else:
                self.deciding.hard.setdefault(self.group.told(cases[0]), []).append(self.number)

    def _until_found(self) -> bool:
        last = self.search.last
        while self.search.last == last:
            if self.search.moments >= MOST_MOMENTS:
                return False
            self._deeper()
        return True

    def _proved(self, cases: list[Case]) -> None:
        wanted = possible(self.question.requirement.form)
        for case in cases:
            fault, when = self.group.told(case)
            self.deciding.outcomes[fault.id, self.number, when] = Fails(None) if wanted else Holds()
            self.search.drop(case)

    def _deeper(self) -> None:
        for case, trace in self.search.deeper():
            self._found(case, trace)

    def _counts_alike(self, fault: Fault, when: When) -> bool:
        """Whether no moment is counted here that would not be in the vehicle with this fault alone: with all faults,
        more can matter by name."""
        deciding, own = self.deciding, len(self.deciding.program.givens)
        if self.here is None:
            form = self.question.requirement.form
            self.here = counted(self.group.program, self.group.decider.questions.names, form, own)
        alone = deciding.single(fault, when)
        form = alone.requirements[self.number].form
        return self.here.is_within(counted(alone, Names(alone), form, own))

    def _found(self, case: Case, trace: Trace) -> None:
        fault, when = self.group.told(case)
        cone = self.search.cone
        overdue = not holds_last(cone, trace, self.question.breach.now)
        story = tell(cone, trace, overdue, involved(cone))
        story = self.deciding.played(fault, when, self.number, cone, story, self.budget)
        outcomes, asked = self.deciding.outcomes, self.deciding.asked[self.number]
        wanted = possible(self.question.requirement.form)
        shortest = not wanted and self._counts_alike(fault, when)
        outcomes[fault.id, self.number, when] = Holds() if wanted else Fails(story, shortest)
        loose = self.group.case(fault, When.LOOSE)
        if when is When.LATER and loose in self.search.open_:  # what comes and goes may also stay
            outcomes[fault.id, self.number, When.LOOSE] = Holds() if wanted else Fails(story, shortest=False)
            self.search.drop(loose)
        if asked.once:
            for other in asked.whens(fault):
                self.search.drop(self.group.case(fault, other))
