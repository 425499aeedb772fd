"""Faults asked about together: one vehicle in which one of them is there, made ready once for all questions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.cases import Case
from logiccheck.copper.faults.changed import changed
from logiccheck.copper.faults.parts import Fault, When
from logiccheck.copper.faults.there import MANNER, MANNERS, WHICH
from logiccheck.engine.decider import Asked, Decider
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.portfolio import Never, Sometimes, prove
from logiccheck.engine.question import Question
from logiccheck.engine.stops import Doubtful
from logiccheck.engine.troubles import contradictions, stopped_time
from logiccheck.engine.verdict import Trouble
from logiccheck.explain.asking import with_own_memory
from logiccheck.lang.program import (
    And,
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Guard,
    NeverLonger,
    OnlyAfter,
    Or,
    Position,
    Possible,
    Program,
    Requirement,
    WaitsFor,
)
from logiccheck.lang.program import (
    Never as NeverForm,
)
from logiccheck.model.circuit.aig import FALSE

NAMES = (WHICH, MANNER)


@dataclass(slots=True)
class Group:
    """`program` is the vehicle in which one of `faults` is there, with the requirements that are asked; `troubles` and
    `doubtful` are what stands in the way of answers, each caused by some of the faults, or by none."""

    faults: tuple[Fault, ...]
    program: Program
    decider: Decider
    troubles: list[Trouble]
    doubtful: list[Doubtful]
    asked: int = 0

    @property
    def is_sound(self) -> bool:
        return not self.troubles and not self.doubtful

    def culprit(self) -> Fault | None:
        """A fault with which something stands in the way; None where no story tells it."""
        for trouble in self.troubles:
            world = dict(trouble.story.steps[0].world) if trouble.story is not None else {}
            number = world.get(WHICH)
            if number is not None and int(number) < len(self.faults):
                return self.faults[int(number)]
        return None

    def case(self, fault: Fault, when: When) -> Case:
        return self.faults.index(fault), MANNERS.index(when)

    def told(self, case: Case) -> tuple[Fault, When]:
        return self.faults[case[0]], MANNERS[case[1]]

    def prove(self, question: Question, cases: Iterable[Case], budget: Budget) -> bool | None:
        """Whether it is proved, and the proof has passed the audit, that nothing goes wrong in these cases. False:
        something does in one of them, in a story as the question counts it or in a longer one. None: not decided."""
        self.asked += 1
        name = f"{question.requirement.name}, question {self.asked}"
        form = _restricted(question.requirement.form, _in(cases), name)
        number = self.decider.ask_also(Requirement(name, "", Guard.FUNCTION, form, ""))
        restricted = self.decider.questions.all[number]
        cone = self.decider.questions.cone(restricted, restricted.bad)
        doubt = self.decider.doubts.broken(restricted)
        if cone.bad == FALSE:
            doubt(cone, (), budget)
            return True
        found = prove(cone, budget, {Engine.REFINEMENT})
        if isinstance(found, Never):
            doubt(cone, found.proofs, budget)
            return True
        return False if isinstance(found, Sometimes) else None


def group(program: Program, faults: tuple[Fault, ...], requirements: Iterable[Requirement], budget: Budget) -> Group:
    """The vehicle in which one of the faults is there, ready. May raise KeyboardInterrupt."""
    vehicle = changed(replace(program, requirements=tuple(requirements)), faults)
    only = frozenset(requirement.name for requirement in vehicle.requirements)
    decider = Decider(Asked(vehicle, budget.left, only, frozenset(BOTH)))
    decider.asides = False
    troubles = [decider.trouble] if decider.trouble is not None else []
    troubles += contradictions(decider.questions)
    stops, doubtful = stopped_time(decider.questions, decider.doubts, budget)
    return Group(faults, vehicle, decider, [*troubles, *stops], doubtful)


def _in(cases: Iterable[Case]) -> Expr:
    """It is one of these cases."""
    manners: dict[int, set[int]] = {}
    for which, manner in cases:
        manners.setdefault(manner, set()).add(which)
    alike: dict[frozenset[int], set[int]] = {}
    for manner, which_ones in manners.items():
        alike.setdefault(frozenset(which_ones), set()).add(manner)
    return Or(
        tuple(
            And((Position(WHICH, which), Position(MANNER, frozenset(alike[which]))))
            for which in sorted(alike, key=sorted)
        )
    )


def _restricted(form: Form, condition: Expr, name: str) -> Form:
    """The form, broken at most in stories in which the condition holds, which never changes; what it remembers is its
    own."""
    match form:
        case NeverForm() | NeverLonger() | CallsWithin() | CallsLasting():
            form = replace(form, p=And((form.p, condition)))
        case OnlyAfter() | WaitsFor() | Possible():
            form = replace(form, q=And((form.q, condition)))
    return with_own_memory(form, name)
