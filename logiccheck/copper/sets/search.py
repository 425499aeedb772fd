"""All cut sets of a requirement, those with the fewest faults first.

With a given number of faults at most, and without any set found so far, the requirement is asked again and again: each
story shows a set, and that there is no more story is a proof. None of the sets found with one fault more can then be
made smaller.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.bug import Bug, bug_of
from logiccheck.copper.sets.breaking import Barred, Breaking, Cuts, CutSet, Faults
from logiccheck.copper.sets.held import Held, each_its_own, in_places
from logiccheck.copper.sets.narrowed import narrowed
from logiccheck.copper.sets.unrolled import Unrolled
from logiccheck.engine.replay import StoryRefused, played
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, BugMet, Never, Open, Seen
from logiccheck.lang.matters import WORLD, Names
from logiccheck.lang.program import Requirement
from logiccheck.lang.walk import form_expressions
from logiccheck.model.judge import violated
from logiccheck.model.story import Story

MOST_BARRED = 40  # sets of faults that stand in the way of answers, after which no more is asked
MOST_PLACES = 3  # faults at once, up to which places for faults are quicker than a contact for each
QUICK_SHARE = 0.3  # of the time that is left, for stories of a few moments
READY_SHARE = 0.3  # of all time that is left, to be ready for questions
ONE_SHARE = 0.5  # of that time, for one question


@dataclass(slots=True)
class Level:
    """A vehicle with so many faults at once, ready to be asked about."""

    held: Held
    asking: Asking


class Hunt:
    """Ready to look for the cut sets of some requirements of one vehicle, which all take as long as `budget` says.
    `progress` is called with the name of what is asked about next. `barred`: what stands in the way of answers, as far
    as it was met."""

    def __init__(
        self,
        breaking: Breaking,
        requirements: tuple[Requirement, ...],
        budget: Budget,
        progress: Callable[[str], None] = lambda _: None,
    ) -> None:
        self.breaking, self.requirements, self.budget, self.progress = breaking, requirements, budget, progress
        self.barred: list[Barred] = []
        self._names = Names(breaking.program)
        self._levels: dict[int, Level] = {}

    def search(self, requirement: Requirement, order: int) -> Search:
        """A search for all cut sets of one of the requirements with at most `order` faults, not yet begun."""
        world = self._names.matter(form_expressions(requirement.form)).names(WORLD)
        that_matter = frozenset(fault for fault, name in enumerate(self.breaking.names) if name in world)
        return Search(self, requirement, order, that_matter)

    def level(self, number: int, budget: Budget) -> Level:
        """What is ready for questions about at most so many faults at once, which all take as long as that says."""
        key = min(number, MOST_PLACES + 1)
        if key not in self._levels:
            barred = [each.faults for each in self.barred]
            own = number > MOST_PLACES
            held = each_its_own(self.breaking, barred) if own else in_places(self.breaking, number, barred)
            self._levels[key] = Level(held, self._ready(held))
        level = self._levels[key]
        level.asking.budget, level.asking.each = budget, ONE_SHARE * budget.left
        return level

    def bar(self, barred: Barred) -> None:
        """These faults are never looked at together again."""
        self.barred.append(barred)
        self._levels.clear()

    def _ready(self, held: Held) -> Asking:
        about = tuple(e for each in self.requirements for e in form_expressions(held.said(each.form)))
        first = (*about, held.any_of(range(len(self.breaking.names))))
        return Asking(held.program, first, self.budget, READY_SHARE * self.budget.left, asides=False)


@dataclass(slots=True)
class Search:
    """The search for the cut sets of one requirement, as far as it got: `done` when there is no more to do for it.

    `that_matter` are the faults that can matter to it, by names alone.
    """

    hunt: Hunt
    requirement: Requirement
    order: int
    that_matter: Faults
    sets: list[CutSet] = field(default_factory=list)
    complete: int | None = None
    why: Undecided | Obstacle | None = None
    bug: Bug | None = None

    @property
    def done(self) -> bool:
        """All are found, or more time would not help."""
        late = (None, Undecided.BUDGET)
        return self.complete == self.order or self.bug is not None or self.why not in late

    def advance(self, number: int, budget: Budget) -> None:
        """Looks for sets of at most so many faults, those with fewer being known, within the budget; may be called
        again if that was not enough. May raise KeyboardInterrupt."""
        if self.done or (self.complete if self.complete is not None else -1) != number - 1:
            return
        self.why = None
        try:
            self._advance(number, budget)
        except OutOfTime:
            self.why = Undecided.BUDGET
        except MemoryError:
            self.why = Undecided.MEMORY
        except BugMet as met:
            self.why, self.bug = Undecided.OUR_BUG, met.bug

    def found(self) -> Cuts:
        """What is known by now."""
        sets = sorted(self.sets, key=lambda each: (len(each.faults), sorted(each.faults)))
        barred = tuple(each for each in self.hunt.barred if each.faults <= self.that_matter)
        why = self.why if self.why is not None or self.complete == self.order else Undecided.INTERRUPTED
        return Cuts(self.requirement, self.order, tuple(sets), self.complete, barred, why, self.bug)

    def _advance(self, number: int, budget: Budget) -> None:
        if self.complete is not None and self._nothing_left(number):
            self.complete = self.order
            return
        budget.check()  # to be ready for questions takes time, too
        self.hunt.progress(self.requirement.name)
        self._take_quick(number, budget)
        while not self._fails_whole() and (answer := self._ask(number, budget)) is not None:
            self._take(number, answer, budget)
            if self.why is not None:
                return
        self.complete = self.order if self._fails_whole() else number

    def _nothing_left(self, number: int) -> bool:
        """No set of that many faults can be a cut set: too few are left."""
        return len(self._left()) < number

    def _fails_whole(self) -> bool:
        return any(not each.faults for each in self.sets)

    def _left(self) -> Faults:
        """The faults that are no cut set each on its own."""
        gone = [*(each.faults for each in self.sets), *(each.faults for each in self.hunt.barred)]
        return self.that_matter - {fault for faults in gone if len(faults) == 1 for fault in faults}

    def _known(self, left: Faults) -> Iterator[Faults]:
        """Sets of two faults or more that are not asked for: found already, or of two faults of one part."""
        yield from (each.faults for each in self.sets if len(each.faults) > 1)
        clash = self.hunt.breaking.clash
        yield from (frozenset({a, b}) for a in left for b in left if a < b and clash(a, b))

    # ------------------------------------------------------------------------------------------------- searching

    def _take_quick(self, number: int, budget: Budget) -> None:
        """What shows in a few moments, as far as that is known to be a story without more ado."""
        level, left = self.hunt.level(number, budget), self._left()
        if not number or level.asking.troubles:
            return
        quick = Unrolled(level.asking, level.held, self.requirement.form, left, number, budget.part(QUICK_SHARE))
        for _, story in quick.stories(self._known(left)):
            self._found(level, story, quick.name)

    def _ask(self, number: int, budget: Budget) -> Answer | None:
        """Whether the requirement fails with at most so many faults and no set found; None once there is no more."""
        level, left = self.hunt.level(number, budget), self._left()
        kept = level.held.kept(left, self._known(left), number)
        answer = level.asking.fails(narrowed(level.held.said(self.requirement.form), kept))
        return None if isinstance(answer, Never) else answer

    def _take(self, number: int, answer: Answer, budget: Budget) -> None:
        level = self.hunt.level(number, budget)
        match answer:
            case Seen(story):
                self._found(level, story, f"question {level.asking.asked}")
            case Open(why):
                self.why = why
            case Blocked(by):
                self._blocked(level, by)
            case Never():
                pass

    def _found(self, level: Level, story: Story, question: str) -> None:
        """A cut set, if the story is one on the vehicle in which all faults are contacts of the world."""
        cut = CutSet(level.held.there(story), level.held.told(story, question))
        try:
            timeline = played(self.hunt.breaking.program, cut.story)
            if violated(timeline, self.requirement.form) is None:
                raise StoryRefused("the judge sees nothing wrong")
            if any(each.faults <= cut.faults for each in self.sets):
                raise StoryRefused("it holds a set that was found before")
        except StoryRefused as refused:
            raise BugMet(bug_of(refused, self.requirement.name)) from refused
        self.sets.append(cut)

    def _blocked(self, level: Level, by: Obstacle) -> None:
        story = next((each.story for each in level.asking.troubles if each.obstacle is by and each.story), None)
        faults = level.held.there(story) if story is not None else frozenset()
        if not faults or len(self.hunt.barred) >= MOST_BARRED:
            self.why = by
        else:
            self.hunt.bar(Barred(faults, by))
