"""Which of many conditions are ever so at once: every answer a proof or a story that is played, none asked twice."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from logiccheck.base.frozen import frozen
from logiccheck.engine.replay import played
from logiccheck.explain.asking import Answer, Asking, Blocked, Never, Open, Seen
from logiccheck.lang.program import And, Expr
from logiccheck.model.observed import signal
from logiccheck.model.signals import Instant
from logiccheck.model.story import Story


@frozen
class Happened:
    """A situation that can be: at the end of `story` just the conditions with these numbers are so."""

    so: frozenset[int]
    story: Story


@dataclass(slots=True)
class Together:
    """The conditions by number, and all that was found out about them so far.

    `never`: sets of conditions that are never so at once. `left`: those of which it is not known. `told`: the shortest
    story at whose end all of a set is so. `hard`: what was not decided in the time that it was given.
    """

    asking: Asking
    conditions: tuple[Expr, ...]
    happened: list[Happened] = field(default_factory=list)
    never: list[frozenset[int]] = field(default_factory=list)
    left: dict[frozenset[int], Open | Blocked] = field(default_factory=dict)
    told: dict[frozenset[int], Story] = field(default_factory=dict)
    hard: set[frozenset[int]] = field(default_factory=set)

    def known(self, numbers: frozenset[int]) -> bool | None:
        """Whether these are ever so at once, where that is known already."""
        if any(numbers <= each.so for each in self.happened):
            return True
        return False if any(each <= numbers for each in self.never) else None

    def ever(self, numbers: frozenset[int], share: float = 1.0) -> bool | None:
        """Whether these are ever so at once, in this share of the time that one question may take; None if that is not
        decided. May raise KeyboardInterrupt, or BugMet."""
        known = self.known(numbers)
        return known if known is not None or numbers in self.left else self._ask(numbers, share)

    def _ask(self, numbers: frozenset[int], share: float = 1.0) -> bool | None:
        answer: Answer = self.asking.possible(self._all(numbers), share)
        match answer:
            case Seen(story):
                self.told[numbers] = story
                self.happened.append(Happened(self._so(story), story))
                assert numbers <= self.happened[-1].so
                return True
            case Never():
                self.never.append(numbers)
                return False
            case Open() | Blocked():
                self.hard.add(numbers)
                if share == 1.0:
                    self.left[numbers] = answer
                return None

    def unknown(self, numbers: Sequence[int], size: int) -> Iterator[frozenset[int]]:
        """The sets of at most so many of these of which it is not known whether they are ever so at once; what becomes
        known meanwhile is left out.

        Such a set has, for each situation that can be, something that is not so there: it grows by each of these in
        turn.
        """
        return self._grown(frozenset(), numbers, size)

    def _grown(self, chosen: frozenset[int], numbers: Sequence[int], size: int) -> Iterator[frozenset[int]]:
        if self.known(chosen) is False or chosen in self.hard:
            return
        where = next((each.so for each in self.happened if chosen <= each.so), None if chosen else frozenset())
        if where is None:
            yield chosen
        elif size:
            for number in numbers:
                if number not in where:
                    yield from self._grown(chosen | {number}, numbers, size - 1)

    def too_hard(self, numbers: frozenset[int], size: int) -> list[frozenset[int]]:
        """The sets of at most so many of these that were not decided in the time that they were given."""
        few = [each for each in self.hard if len(each) <= size and each <= numbers and self.known(each) is None]
        return sorted(few, key=lambda each: (self.nearly(each), sorted(each)))

    def nearly(self, numbers: frozenset[int]) -> int:
        """In how many of the situations known to be all of these but one at most are so: where that is seldom, they
        may well never be so at once."""
        return sum(len(numbers - each.so) <= 1 for each in self.happened)

    def story(self, numbers: frozenset[int]) -> None:
        """Finds the shortest story at whose end these are so, if they are known to be. May raise as `ever` does."""
        if numbers and numbers not in self.told and self.known(numbers):
            self._ask(numbers)

    def _all(self, numbers: Collection[int]) -> Expr:
        return And(tuple(self.conditions[number] for number in sorted(numbers)))

    def _so(self, story: Story) -> frozenset[int]:
        timeline = played(self.asking.program, story)
        end = Instant(timeline.end)
        return frozenset(n for n, expr in enumerate(self.conditions) if signal(timeline, expr).value(end))

    def fewest(self, numbers: Sequence[int], share: float) -> frozenset[int] | None:
        """A part of these that is never so at once, of which nothing can be left out; None if there is none, or it was
        not found, with this share of the time for each question.

        It is grown from nothing: few conditions are decided sooner than many. The first one with which those before it
        can no longer be so together belongs to such a part; it is put in front, and what comes after it is dropped.
        """
        core: list[int] = []
        rest = list(numbers)
        while self.ever(frozenset(core), share) if core else True:
            last = self._first_apart(core, rest, share)
            if last is None:
                return None
            core.append(rest[last])
            rest = rest[:last]
        return frozenset(core) if self.known(frozenset(core)) is False else None

    def _first_apart(self, core: Sequence[int], rest: Sequence[int], share: float) -> int | None:
        """At which of the rest those up to it are first never so together with the core."""
        for at in range(len(rest)):
            answer = self.ever(frozenset((*core, *rest[: at + 1])), share)
            if answer is not True:
                return at if answer is False else None
        return None
