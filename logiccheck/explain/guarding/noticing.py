"""Whether a requirement that holds of a vehicle, proved or for want of a case, would no longer if it were edited."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import SHORT_CIRCUIT, Check, Kind, Obstacle, Verdict
from logiccheck.explain.asking import BugMet
from logiccheck.explain.ending import same_hands
from logiccheck.explain.guarding.unlike import MOST_MOMENTS
from logiccheck.lang.matters import Item, Names
from logiccheck.lang.program import Possible, Program, Requirement, Scenario
from logiccheck.lang.walk import form_expressions
from logiccheck.model.judge import broken, violated
from logiccheck.model.play import first_world
from logiccheck.model.story import Run, Step, Story

BUILT_IN = {
    Obstacle.UNSETTLED: "all comes to rest",
    Obstacle.TIME_STOPS: "what is given lets time go on",
    Obstacle.CONTRADICTION: "what is given can be so",
}
MOST_STORIES = 60  # played of one edit; the ones that helped most


@frozen
class Noticed:
    """By which requirement, or by what is asked of every vehicle."""

    by: str


@frozen
class NotNoticed:
    """`open_`: the requirements of which it is not known."""

    open_: tuple[str, ...] = ()


class _Heard(Exception):
    """A requirement that no longer holds."""

    def __init__(self, verdict: Verdict) -> None:
        super().__init__(verdict)
        self.verdict = verdict


@dataclass(slots=True)
class Watch:
    """The requirements of a vehicle that hold, and stories in which edited vehicles may go wrong.

    `seconds`: what one requirement may take. `first`: the requirements by how often each was the one that noticed.
    One that has no case as it is notices only by failing.
    """

    program: Program
    found: Check
    seconds: float
    stories: list[Story] = field(default_factory=list)
    helped: Counter[Story] = field(default_factory=Counter)
    first: Counter[str] = field(default_factory=Counter)
    matter: dict[str, frozenset[Item]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        names = Names(self.program)
        for each in self.holding:
            self.matter[each.name] = names.matter(form_expressions(each.form)).items
        self.stories += [story_of(self.program, scenario) for scenario in self.program.scenarios]
        self.stories += [verdict.story for verdict in self.found.verdicts if verdict.story is not None]

    @property
    def holding(self) -> tuple[Requirement, ...]:
        known = {v.requirement.name for v in self.found.verdicts if not v.builtin and v.kind is Kind.PROVED}
        return tuple(each for each in self.program.requirements if each.name in known | self.idle)

    @property
    def idle(self) -> frozenset[str]:
        """Those that have no case."""
        return frozenset(v.requirement.name for v in self.found.verdicts if not v.builtin and v.kind is Kind.NO_CASE)

    @property
    def is_shorted(self) -> bool:
        return any(v.builtin and v.kind is not Kind.PROVED for v in self.found.verdicts)

    def looked_at(self, edited: Program, items: frozenset[Item]) -> Noticed | NotNoticed:
        """Whether a requirement to which one of these items can matter no longer holds of the edited vehicle; they are
        all that hangs on what was edited, wires on the way, too.

        May raise KeyboardInterrupt, or BugMet.
        """
        asked = self._asked(edited, items)
        return self._played(edited, asked) or self._checked(edited, asked)

    def _asked(self, edited: Program, items: frozenset[Item]) -> list[Requirement]:
        """Those to which an item can matter, the likeliest first; what is edited can matter to more than before."""
        names = Names(edited)
        forms = {each.name: each for each in edited.requirements}
        asked = []
        for each in self.holding:
            matter = self.matter[each.name]
            if not matter.isdisjoint(items) or not names.matter(form_expressions(each.form)).items.isdisjoint(items):
                asked.append(forms[each.name])
        return sorted(asked, key=lambda each: -self.first[each.name])

    def _played(self, edited: Program, asked: list[Requirement]) -> Noticed | None:
        forms = [each for each in asked if not isinstance(each.form, Possible)]
        stories = sorted(self.stories, key=lambda story: -self.helped[story])
        for story in stories[:MOST_STORIES] if forms else ():
            name = broken_in(edited, story, forms)
            if name is not None:
                self.helped[story] += 1
                self.first[name] += 1
                return Noticed(name)
        return None

    def _checked(self, edited: Program, asked: list[Requirement]) -> Noticed | NotNoticed:
        idle = self.idle

        def heard(verdict: Verdict) -> None:
            if verdict.kind is Kind.FAILS or (verdict.kind is Kind.NO_CASE and verdict.requirement.name not in idle):
                raise _Heard(verdict)

        program = replace(edited, requirements=tuple(asked), scenarios=())
        only = {each.name for each in asked} if self.is_shorted else None
        try:
            check = check_program(program, self.seconds, None, only, heard=heard)
        except _Heard as found:
            return self._learnt(found.verdict)
        if check.interrupted:
            raise KeyboardInterrupt
        if check.bugs:
            raise BugMet(check.bugs[0])
        for trouble in check.troubles:
            if trouble.obstacle in BUILT_IN:
                return Noticed(BUILT_IN[trouble.obstacle])
        held = (Kind.PROVED, Kind.NO_CASE)
        return NotNoticed(tuple(v.requirement.name for v in check.verdicts if v.kind not in held))

    def _learnt(self, verdict: Verdict) -> Noticed:
        name = SHORT_CIRCUIT if verdict.builtin else verdict.requirement.name
        self.first[name] += 1
        if verdict.story is not None and not verdict.builtin:
            self.stories.append(verdict.story)
            self.helped[verdict.story] += 1
        return Noticed(name)


def broken_in(program: Program, story: Story, asked: Iterable[Requirement]) -> str | None:
    """The first of these requirements that is broken when hands do the same as in the story, lawfully."""
    timeline = same_hands(program, story, MOST_MOMENTS)
    if timeline is None:
        return None
    for each in asked:
        if violated(timeline, each.form) is not None:
            return None if broken(timeline) else each.name
    return None


def story_of(program: Program, scenario: Scenario) -> Story:
    """The hands of a scenario as a story; timers that are not named last their nominal time."""
    chosen = {each.name: each.value for each in scenario.sets if each.time == 0}
    world = dict(first_world(program, chosen, program.at_first))
    times = sorted({Fraction(0), Fraction(scenario.end), *(Fraction(each.time) for each in scenario.sets)})
    steps = []
    for time in times:
        world |= {each.name: each.value for each in scenario.sets if each.time == time}
        steps.append(Step(time, tuple(world.items()), ()))
    runs = tuple(Run(each.key, Fraction(each.time), Fraction(each.duration)) for each in scenario.timers)
    return Story(tuple(steps), runs, False, frozenset())
