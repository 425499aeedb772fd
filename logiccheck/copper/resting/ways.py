"""The ways in which a parked vehicle can stay as it is for ever, found by playing stories on, and what each draws."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.draws import Draw
from logiccheck.copper.draws.feeds import Feed
from logiccheck.copper.resting.still import Still, still
from logiccheck.lang.program import Expr, Program
from logiccheck.model.memory import Time
from logiccheck.model.story import Story

NOTHING = Fraction(0)


@frozen
class Tap:
    """A source, and each thing that can draw from it, with the condition under which it does."""

    feed: Feed
    taken: tuple[tuple[Draw, Expr], ...]


@frozen
class Way:
    """What lasts for ever after `story`, from `begin` on: what draws from a source, each for a share of the time.

    `period` is that of what goes round and round, both in microseconds; None where nothing moves.
    """

    story: Story
    begin: Time
    period: Time | None
    drawn: tuple[tuple[Draw, Fraction], ...]

    @property
    def average(self) -> Fraction:
        """Amperes."""
        return sum((draw.amperes * share for draw, share in self.drawn), NOTHING)


@dataclass(slots=True)
class Ways:
    """Stories played on in `program`, each once; `parked` is looked at where each comes to rest."""

    program: Program
    parked: Expr
    found: list[tuple[Story, Still]] = field(default_factory=list)
    restless: int = 0  # stories after which it does not come to rest, or not for ever
    _tried: set[Story] = field(default_factory=set)

    def play(self, story: Story, budget: Budget) -> None:
        """How it goes on after the story. Raises OutOfTime."""
        if story in self._tried:
            return
        lasts = still(self.program, story, budget)
        self._tried.add(story)
        if lasts is None or lasts.share(self.parked) != 1:
            self.restless += 1
        else:
            self.found.append((story, lasts))

    def of(self, tap: Tap) -> tuple[Way, ...]:
        """Those that differ in what draws from this source, what draws most first; of each the shortest story."""
        best: dict[tuple[tuple[Draw, Fraction], ...], Way] = {}
        for story, lasts in self.found:
            shares = ((draw, lasts.share(on)) for draw, on in tap.taken)
            drawn = tuple((draw, share) for draw, share in shares if share)
            if drawn not in best or story.moments < best[drawn].story.moments:
                best[drawn] = Way(story, lasts.begin, lasts.period, drawn)
        return tuple(sorted(best.values(), key=lambda way: (-way.average, way.story.moments)))
