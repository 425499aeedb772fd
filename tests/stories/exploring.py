"""Explores a small program with an eye on its hands: how few of their changes do, and what comes of one at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logiccheck.lang.program import Program, Requirement
from tests.oracle.explorer import Explorer, Move, Place, Search
from tests.oracle.kernel import Clock, Event, Kernel, Situation
from tests.oracle.monitors import Finding
from tests.oracle.oracle import nodes_of
from tests.oracle.slices import Slicer


def kernel_of(program: Program, requirement: Requirement) -> Kernel:
    """The part of a program that can matter to a requirement."""
    return Kernel(Slicer(program).slice(nodes_of(requirement), (requirement,)), requirement.form)


class OneAtATime(Explorer):
    """At no moment after the first does a change of the world fall together with another, or with a timer's end."""

    def events(self, situation: Situation, due: frozenset[Clock], silent: bool) -> list[Event]:
        timers = any(kind != "own" for kind, _ in due)
        found = super().events(situation, due, silent)
        return [event for event in found if changes(situation, event) <= (0 if timers else 1)]


def changes(before: Situation, event: Event) -> int:
    """How many things of the world are otherwise; one that never settles is not looked at."""
    after = event.situation
    return 0 if after is None else sum(a != b for a, b in zip(before.world, after.world, strict=True))


def moments_apart(program: Program, requirement: Requirement, limit: int) -> int | None:
    """The moments of the shortest story without any coincidence; None if there is none. May raise TooBig."""
    search = Search(OneAtATime(kernel_of(program, requirement), limit))
    search.run(patient=False)
    return search.best


@dataclass
class Fewest:
    """The fewest moments of a story, and the fewest changes of those with so few."""

    explorer: Explorer
    moments: int
    best: int | None = None

    def run(self) -> int | None:
        """Whatever is passed on a shortest story is reached there with as few moments as it can be."""
        here: dict[Place, int] = {}
        known: set[Place] = set()
        for move in self.explorer.starts():
            self._note(move, 1, 0, here)
        for level in range(1, self.moments + 1):
            self._silently(here, level)
            beyond: dict[Place, int] = {}
            known |= here.keys()
            for place, so_far in here.items():
                for move in self._moves(place, counted=True):
                    self._note(move, level + 1, so_far + changes(place[0], move.event), beyond)
            here = {place: so_far for place, so_far in beyond.items() if place not in known}
        return self.best

    def _moves(self, place: Place, counted: bool) -> Iterator[Move]:
        return (move for move in self.explorer.moves(place) if move.counted is counted and move.place is not None)

    def _silently(self, here: dict[Place, int], level: int) -> None:
        todo = list(here)
        while todo:
            place = todo.pop()
            for move in self._moves(place, counted=False):
                if self._note(move, level, here[place], here) and move.place is not None:
                    todo.append(move.place)

    def _note(self, move: Move, moments: int, so_far: int, places: dict[Place, int]) -> bool:
        """Whether it is a place that was not reached with so few changes."""
        finding = move.event.finding
        if finding is not Finding.FINE and moments + (finding is Finding.OVERDUE) == self.moments:
            self.best = min(so_far, self.best if self.best is not None else so_far)
        if move.place is None or finding is Finding.OVERDUE or places.get(move.place, so_far + 1) <= so_far:
            return False
        places[move.place] = so_far
        return True
