"""Explores all stories of a small program, fewest moments first: every world, every choice of which timers fall due,
and every class of times is tried until nothing new comes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from tests.oracle.clocks import Grid, Reading, subsets
from tests.oracle.kernel import Clock, Event, Kernel, Situation
from tests.oracle.monitors import Finding

Place: TypeAlias = tuple[Situation, Reading]


class TooBig(Exception):
    """More states than the limit."""


@dataclass(frozen=True)
class Move:
    """One event after a stretch of time; `place` is None when the event never settles."""

    event: Event
    place: Place | None
    counted: bool  # it is a moment; else only clocks of monitors end
    last: bool  # it waits as long as anything can
    must: bool = False  # something ends in it that could not go on longer


class Explorer:
    """All places of one kernel; each is an event just passed, and how long each clock has run since."""

    def __init__(self, kernel: Kernel, limit: int) -> None:
        self.kernel = kernel
        self.grid = Grid.of(kernel.windows)
        self.limit = limit
        self.choices: dict[tuple[Situation, frozenset[Clock], bool], list[Event]] = {}
        self.worlds: dict[tuple[int, ...], list[tuple[int, ...]]] = {}

    def starts(self) -> Iterator[Move]:
        """Time 0 in every world that is allowed."""
        for world in self.kernel.worlds(None):
            event = self.kernel.event(None, world, frozenset())
            if event:
                place = (event.situation, (0,) * len(event.situation.clocks)) if event.situation else None
                yield Move(event, place, counted=True, last=False)

    def moves(self, place: Place) -> Iterator[Move]:
        """Every event that can come next, after any stretch of time."""
        situation, reading = place
        clocks = situation.clocks
        delays = list(self.grid.delays(clocks, reading))
        for index, (_, then) in enumerate(delays):
            last = index >= len(delays) - 2
            must, may = self.grid.falls(clocks, then)
            if must and all(kind == "own" for kind, _ in must):
                for event in self.events(situation, frozenset(must), silent=True):
                    yield self.move(situation, then, Move(event, None, False, last, True))
            for chosen in subsets(may):
                for event in self.events(situation, chosen.union(must), silent=False):
                    yield self.move(situation, then, Move(event, None, True, last, bool(must)))

    def events(self, situation: Situation, due: frozenset[Clock], silent: bool) -> list[Event]:
        """The events with these clocks ending: silent, in the same world; or moments, in every world."""
        key = (situation, due, silent)
        if key not in self.choices:
            if silent:
                found = [self.kernel.event(situation, situation.world, due, moment=False)]
            else:
                still = all(kind == "own" for kind, _ in due)
                worlds = [w for w in self.kernel.worlds(situation.world) if not (still and w == situation.world)]
                found = [self.kernel.event(situation, world, due) for world in worlds]
            self.choices[key] = [event for event in found if event]
        return self.choices[key]

    def move(self, before: Situation, then: Reading, move: Move) -> Move:
        """The move with its place."""
        after = move.event.situation
        if after is None:
            return move
        ran = dict(zip(before.clocks, then, strict=True))
        reading = self.grid.spread(0 if clock in move.event.started else ran[clock] for clock in after.clocks)
        return replace(move, place=(after, reading))


@dataclass
class Search:
    """The places of one requirement, level by level: level n holds what n moments reach, and no fewer."""

    explorer: Explorer
    levels: dict[Place, int] = field(default_factory=dict)
    best: int | None = None  # moments of the shortest story that ends in what the requirement looks for
    seen: set[str] = field(default_factory=set)
    unsettled: bool = False
    begun: bool = False  # there is a world to begin with

    def run(self, patient: bool) -> None:
        """All places; or, if not `patient`, until the shortest story is certain."""
        todo = [place for move in self.explorer.starts() if (place := self.note(move, 0))]
        level = 1
        while todo and (patient or self.best is None or self.best > level + 1):
            todo = self.level(todo, level)
            level += 1

    def level(self, todo: list[Place], level: int) -> list[Place]:
        """Passes through the places of one level, to which silent events add; the places of the next."""
        beyond: list[Place] = []
        while todo:
            place = todo.pop()
            if self.levels[place] < level:
                continue
            for move in self.explorer.moves(place):
                found = self.note(move, level)
                if found:
                    (beyond if move.counted else todo).append(found)
        return [place for place in beyond if self.levels[place] > level]

    def note(self, move: Move, level: int) -> Place | None:
        """What a move shows; gives its place if it is new, or reached with fewer moments than before."""
        self.begun = True
        if move.place is None:
            self.unsettled = True
            return None
        moments = level + 1 if move.counted else level
        self.seen |= move.event.seen
        if move.event.finding is not Finding.FINE:
            length = moments + 1 if move.event.finding is Finding.OVERDUE else moments
            self.best = min(length, self.best or length)
            if move.event.finding is Finding.OVERDUE:
                return None
        if self.levels.get(move.place, moments + 1) <= moments:
            return None
        self.levels[move.place] = moments
        if len(self.levels) > self.explorer.limit:
            raise TooBig(f"more than {self.explorer.limit} states")
        return move.place
