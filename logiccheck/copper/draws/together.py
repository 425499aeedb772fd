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
    story at whose end all of a set is so.
    """

    asking: Asking
    conditions: tuple[Expr, ...]
    happened: list[Happened] = field(default_factory=list)
    never: list[frozenset[int]] = field(default_factory=list)
    left: dict[frozenset[int], Open | Blocked] = field(default_factory=dict)
    told: dict[frozenset[int], Story] = field(default_factory=dict)

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
                if share == 1.0:
                    self.left[numbers] = answer
                return None

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

    def fewer(self, numbers: frozenset[int]) -> frozenset[int]:
        """Of a set that is never so at once a part that is not, either; as small as there was time for. It is tried
        with ever smaller pieces left out."""
        kept: Sequence[int] = sorted(numbers)
        size = len(kept) // 2
        while size:
            for piece in _pieces(kept, size):
                rest = frozenset(kept) - frozenset(piece)
                if rest and self.ever(rest) is False:
                    kept = sorted(rest)
            size = min(size // 2, len(kept) // 2) if size > 1 else 0
        return frozenset(kept)


def _pieces(numbers: Sequence[int], size: int) -> Iterator[Sequence[int]]:
    yield from (numbers[at : at + size] for at in range(0, len(numbers), size))
