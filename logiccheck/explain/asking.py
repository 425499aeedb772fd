"""What can ever be so in a vehicle, one condition at a time: a story that shows it, or a proof that it cannot be."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TypeAlias, assert_never

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.engine.check import weigh
from logiccheck.engine.cone import Cone
from logiccheck.engine.decider import Asked, Decider
from logiccheck.engine.engines import BOTH
from logiccheck.engine.question import Question
from logiccheck.engine.troubles import contradictions, stopped_time
from logiccheck.engine.verdict import Kind, Obstacle, Trouble, Undecided
from logiccheck.explain.part import part_of
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Edge,
    Expr,
    Form,
    Guard,
    Impulse,
    Possible,
    Previous,
    Program,
    Requirement,
    Timer,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.resolve.bounds import with_bounds
from logiccheck.lang.walk import memory
from logiccheck.model.circuit.aig import Aig, Lit
from logiccheck.model.story import Story
from logiccheck.model.truth import Node, is_filter

ONE_QUESTION = 10.0  # seconds for one condition at most


@frozen
class Seen:
    """The shortest story at whose end it is so, played on the interpreter."""

    story: Story


@frozen
class Never:
    """It is never so once all has settled: a proof that has passed the audit."""


@frozen
class Open:
    """It is not known; `why` is None for what cannot be asked at all."""

    why: Undecided | None


@frozen
class Blocked:
    """What stands in the way of every answer that rests on it."""

    by: Obstacle


Answer: TypeAlias = Seen | Never | Open | Blocked


def known(answer: Answer) -> bool | None:
    """Whether it is ever so; None: that is not known."""
    return True if isinstance(answer, Seen) else False if isinstance(answer, Never) else None


class BugMet(Exception):
    """A question met a mistake in this program."""

    def __init__(self, bug: Bug) -> None:
        super().__init__(bug)
        self.bug = bug


class Asking:
    """Ready for questions about what can matter to some conditions; what is required of the vehicle does not count.

    All questions are about things that can matter to the conditions `first`, and what those compare, or filter, the
    vehicle has to know from the start. All together take as long as `budget` says. `troubles` are what blocks answers.
    Where there are none, only the part of the vehicle that can matter is looked at: `program`, on which stories play.
    `whole`: all of it is looked at even so, for questions about anything. `each`: the seconds for one question.
    `asides`: what is said beside a story is sought, too. `alike`: what remembers in `first` is remembered once, for all
    questions that name it, instead of once for each.
    Making it may raise KeyboardInterrupt.
    """

    def __init__(
        self,
        program: Program,
        first: tuple[Expr, ...],
        budget: Budget,
        each: float = ONE_QUESTION,
        whole: bool = False,
        asides: bool = True,
        alike: bool = False,
    ) -> None:
        self.budget, self.each, self._asides = budget, each, asides
        self._alike = frozenset(node.key for node in memory(And(first))) if alike else frozenset()
        asked = tuple(_possible(f"asked {number}", expr) for number, expr in enumerate(first))
        self.program = with_bounds(replace(program, requirements=asked, scenarios=()))
        self.asked = 0  # questions so far
        self._first = first
        self._decider = self._ready()
        questions = self._decider.questions
        self.troubles: list[Trouble] = [self._decider.trouble] if self._decider.trouble is not None else []
        self.troubles += contradictions(questions)
        stops, self._doubtful = stopped_time(questions, self._decider.doubts, Budget(self._seconds))
        self.troubles += stops
        if not whole and not self.troubles and not self._doubtful:
            all_of_it = self.program, self._decider
            self.program = with_bounds(replace(can_matter(program, *first), requirements=asked))
            self._decider = self._ready()
            if self._decider.trouble is not None:  # no time was left to find of the part what is known of the whole
                self.program, self._decider = all_of_it

    def _ready(self) -> Decider:
        decider = Decider(Asked(self.program, self._seconds, None, frozenset(BOTH)))
        decider.asides = self._asides
        return decider

    @property
    def unsettled(self) -> Obstacle | None:
        """Why not all of the vehicle is known to come to rest: what is said is said of what does."""
        never = (Obstacle.UNSETTLED, Obstacle.UNSETTLED_UNKNOWN)
        return next((trouble.obstacle for trouble in self.troubles if trouble.obstacle in never), None)

    @property
    def _seconds(self) -> float:
        return min(self.each, self.budget.left)

    def moment(self) -> tuple[Aig, tuple[Lit, ...], Lit]:
        """One moment as a circuit: for each of the conditions `first` whether it is so once all has settled, and what
        every moment meets. What is stored before it may be anything, so more may seem possible there than is."""
        system = self._decider.questions.moment.system
        asked = [question.bad for question in self._decider.questions.all if not question.builtin]
        met = system.aig.all_of(constraint.lit for constraint in system.constraints)
        return system.aig, tuple(asked[: len(self._first)]), met

    def possible(self, condition: Expr, share: float = 1.0) -> Answer:
        """Whether the condition is ever so once all has settled, asked for this share of the seconds for one question.
        May raise KeyboardInterrupt, or BugMet."""
        return self.fails(Possible(condition), share)

    def fails(self, form: Form, share: float = 1.0) -> Answer:
        """Whether a requirement of this form ever fails, with the story; of a `possible`, whether it ever comes true.
        May raise KeyboardInterrupt, or BugMet."""
        if not self.budget.left:
            return Open(Undecided.BUDGET)
        number = self._number(form)
        self._decider.seconds = min(self.each * share, self._seconds)
        decided = self._decider.decide(number)
        if decided.bug is not None:
            raise BugMet(decided.bug)
        verdict, questions = decided.verdict, self._decider.questions
        # a story that settles shows what it shows, as that of a failure does, whatever else may fail to settle
        found = verdict if verdict.story is None else replace(verdict, kind=Kind.FAILS, undecided=None)
        weighed = weigh(questions, questions.all[number], found, self.troubles, self._doubtful)
        match weighed.kind:
            case Kind.FAILS:
                return Seen(weighed.story) if weighed.story is not None else Never()
            case Kind.PROVED | Kind.NO_CASE:
                return Never()
            case Kind.BLOCKED:
                assert weighed.obstacle is not None
                return Blocked(weighed.obstacle)
            case Kind.NOT_DECIDED:
                assert weighed.undecided is not None
                return Open(weighed.undecided)
            case _:
                assert_never(weighed.kind)

    def told(self, form: Form) -> tuple[Question, Cone]:
        """A requirement of this form as a question, and all that counts in a story of it, for who seeks many."""
        question = self._decider.questions.all[self._number(form)]
        return question, self._decider.questions.told(question)

    def _number(self, form: Form) -> int:
        self.asked += 1
        name = f"question {self.asked}"
        own = with_own_memory(form, name, self._alike)
        return self._decider.ask_also(Requirement(name, "", Guard.FUNCTION, own, ""))


def with_own_memory(form: Form, name: str, alike: frozenset[str] = frozenset()) -> Form:
    """The form, in which what remembers is its own, but for what all questions share."""
    own = {
        each.name: own_memory(value, name, alike)
        for each in fields(form)
        if isinstance(value := getattr(form, each.name), Expr)
    }
    return replace(form, **own)  # type: ignore[arg-type]


def can_matter(program: Program, *conditions: Expr) -> Program:
    """The part of a vehicle that can matter to these conditions, with what is given about it, and all loads."""
    whole = And(conditions)
    facts = Names(program).matter([whole]).at_first
    at_first = tuple(fact for number, fact in enumerate(program.at_first) if number in facts)
    return replace(part_of(program, whole).program, at_first=at_first, loads=program.loads)


def own_memory(condition: Expr, name: str, alike: frozenset[str] = frozenset()) -> Expr:
    """The condition, in which what remembers is its own and nobody else's, save under these keys; a filter is that of
    the sense it names."""

    def change(leaf: Expr) -> Expr:
        match leaf:
            case _ if is_filter(leaf) or (isinstance(leaf, Node) and leaf.key in alike):
                return leaf
            case Timer() | Blink() | Edge() | Previous():
                return replace(leaf, x=own_memory(leaf.x, name, alike), key=f"{leaf.key}, {name}")
            case Bistable():
                set_, reset = own_memory(leaf.set, name, alike), own_memory(leaf.reset, name, alike)
                return replace(leaf, set=set_, reset=reset, key=f"{leaf.key}, {name}")
            case Impulse():
                x, reset = own_memory(leaf.x, name, alike), own_memory(leaf.reset, name, alike)
                return replace(leaf, x=x, reset=reset, key=f"{leaf.key}, {name}")
            case _:
                return leaf

    return replace_leaves(condition, change)


def _possible(name: str, condition: Expr) -> Requirement:
    return Requirement(name, "", Guard.FUNCTION, Possible(condition), "")
