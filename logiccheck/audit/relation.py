"""One program as the audit sees it: a moment with all that is given and asked, built from the resolved tree alone."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from logiccheck.audit.certificate import Ahead, Name
from logiccheck.audit.gates import Lit
from logiccheck.audit.given import LineName, lines
from logiccheck.audit.moment import Moment
from logiccheck.audit.requirements import Asked, asked, ever_on, shorted
from logiccheck.audit.stuck import Plan, apart, demanding, possible, stuck
from logiccheck.audit.together import apart as apart_so_far
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program, Requirement


@frozen
class Broken:
    """The requirement does not hold; of `possible`: what it wants happens."""

    requirement: Requirement


@frozen
class Occurs:
    """A case of the requirement's form occurs: which one, counted from 0 (see `requirements.Asked`)."""

    requirement: Requirement
    case: int


@frozen
class TurnsOn:
    """The output, which the requirement names, is on."""

    requirement: Requirement
    output: str


@frozen
class Shorted:
    """A wire is both live and grounded."""


@frozen
class Unsettled:
    """After the repeats of a moment one more would still change something."""


@frozen
class Stuck:
    """At a moment after time 0, up to which these lines were met, hands meet them neither by leaving the world as it
    was nor by any of the plans."""

    plans: tuple[Plan, ...]
    lines: frozenset[LineName]


@frozen
class Apart:
    """This happens, and so far no change of these variables of the world has fallen together with another, or with one
    of these timers that fell due."""

    what: Broken | Shorted
    world: frozenset[str]
    timers: frozenset[str]

    @property
    def bit(self) -> str:
        """Under which is stored that something has."""
        return f"{self.what.requirement.name if isinstance(self.what, Broken) else ''}:together"


@frozen
class Compared:
    """`more`: a free input that stands for the comparison of two deadlines; `holds`: and both timers run."""

    more: Lit
    holds: Lit


Question: TypeAlias = Broken | Occurs | TurnsOn | Shorted | Unsettled | Stuck


class Relation:
    """`repeats`: how often a moment reacts again after its first reaction."""

    def __init__(self, program: Program, repeats: int) -> None:
        self.program = program
        self.moment = Moment(program, repeats)
        self.lines = lines(self.moment)
        self._asked: dict[str, Asked] = {}
        self._ahead: dict[tuple[Ahead, bool], Compared] = {}

    def ask_also(self, requirement: Requirement) -> None:
        """The requirement is asked of the program from now on, as if it were one of its own."""
        self.program = replace(self.program, requirements=(*self.program.requirements, requirement))

    def happens(self, question: Question | Apart) -> Lit:
        """At this moment, what the proof says never happens."""
        match question:
            case Apart(what, world, timers):
                happens = self.happens(what)  # first: its own timers are known then
                return self.moment.gates.both(happens, apart_so_far(self.moment, question.bit, world, timers))
            case Broken(requirement):
                return self._of(requirement).broken
            case Occurs(requirement, case):
                return self._of(requirement).cases[case]
            case TurnsOn(requirement, output):
                return ever_on(self.moment, requirement, output)
            case Shorted():
                return shorted(self.moment)
            case Unsettled():
                return self.moment.unsettled()
            case Stuck():
                return stuck(self.moment, self.lines, question.plans, question.lines)

    def whole(self, question: Stuck) -> bool:
        """Whether the question leaves out no line that matters to those it names."""
        return question.lines <= self.lines.keys() and apart(self.moment, self.lines, question.lines)

    def planned(self, question: Stuck) -> bool:
        """Whether its plans are plans of this vehicle."""
        return all(possible(self.moment, plan) for plan in question.plans)

    def demanding(self) -> frozenset[LineName]:
        """The lines by which time could stop: whether it does has to be asked of each."""
        return demanding(self.program)

    def stored(self, name: Name, after: bool) -> Lit:
        """A bit or a comparison that is known, before this moment or after it."""
        if isinstance(name, Ahead):
            return self.compared(name, after).holds
        past = self.moment.past
        return past.after[name] if after else past.before[name]

    def compared(self, name: Ahead, after: bool) -> Compared:
        """A comparison of deadlines, before this moment or after it."""
        if (name, after) not in self._ahead:
            gates, past = self.moment.gates, self.moment.past
            clocks = [past.clocks[key] for key in (name.timer, name.other) if key is not None]
            run = [gates.either(c.goes_on, c.begins) if after else c.runs for c in clocks]
            more = gates.input()
            self._ahead[name, after] = Compared(more, gates.all([more, *run]))
        return self._ahead[name, after]

    def _of(self, requirement: Requirement) -> Asked:
        """The requirement must be one of the program."""
        if requirement.name not in self._asked:
            if requirement not in self.program.requirements:
                raise AssertionError(f"{requirement.name} is not asked in this program")
            self._asked[requirement.name] = asked(self.moment, requirement)
        return self._asked[requirement.name]
