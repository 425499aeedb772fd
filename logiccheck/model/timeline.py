"""What a played vehicle did: its moments in time, each with the world from it on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program
from logiccheck.model.interpreter import Moment
from logiccheck.model.memory import Time
from logiccheck.model.reaction import World
from logiccheck.model.story import Run


@frozen
class Played:
    """One moment as played, at `time` microseconds: the world from it on, and the timers that fell due."""

    time: Time
    world: World
    due: frozenset[str]
    moment: Moment


@frozen
class Timeline:
    """The moments from time 0 to `end`, rising in time; only the last may be one that never settles, and ends it."""

    program: Program
    played: tuple[Played, ...]
    end: Time  # the last instant played; the values settled last still hold just after it
    durations: Mapping[tuple[str, Time], Time]  # chosen: by timer and start of its run; the others last as written
    unused: tuple[Run, ...]  # chosen runs of box and relay timers that did not begin when they were said to

    @property
    def settles(self) -> bool:
        return self.played[-1].moment.settles

    @property
    def settled(self) -> tuple[Played, ...]:
        """The moments that settle: all, or all but the last."""
        return self.played if self.settles else self.played[:-1]

    def steps(self) -> Iterator[tuple[Played | None, Played]]:
        """Each settled moment with the one before it (None at time 0)."""
        before = None
        for played in self.settled:
            yield before, played
            before = played
