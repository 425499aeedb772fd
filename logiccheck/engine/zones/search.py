"""Breadth first through all that can be reached: sets of states, each with a zone of deadlines.

A *place* is a set of states in which the same timed clocks run, with a zone of their deadlines. What larger zones met
before hold already is left out of it. So the first place from which the bad thing can happen gives a trace with the
fewest moments; and when nothing new comes, the places hold everything that can be reached.
References: R. Alur, D. Dill, "A theory of timed automata", TCS 126, 1994; C. Daws, S. Tripakis, "Model checking of
real-time reachability properties using abstractions", TACAS 1998 (inclusion of zones).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from logiccheck.engine.timing import Trace
from logiccheck.engine.zones.moves import Moves, Relation
from logiccheck.engine.zones.sets import States
from logiccheck.engine.zones.zone import NOTHING_RUNS, Rows, Zone, after_moment, next_moments
from logiccheck.model.circuit.aig import Node

MOST_PLACES = 20_000


class TooManyPlaces(Exception):
    """More places than are kept."""


class Coming(NamedTuple):
    """How a place is reached: from which one, what falls due, and which timed clocks run and which start after it."""

    place: Place
    due: frozenset[int]
    starts: frozenset[int]


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    states: States
    zone: Zone
    coming: Coming | None


@dataclass(slots=True)
class Kept:
    """A zone met before, and all states met with it that no other zone holds."""

    zone: Zone
    states: States


@dataclass(slots=True)
class Found:
    """What can be reached, by the timed clocks that run."""

    kept: dict[tuple[int, ...], list[Kept]] = field(default_factory=dict)

    def new(self, zone: Zone, states: States, empty: States) -> States:
        """The states that are not known with this zone; they are from now on."""
        known = self.kept.setdefault(zone.clocks, [])
        same = None
        for each in known:
            if each.zone.holds(zone):
                states &= ~each.states
                if states == empty:
                    return states
                if each.zone == zone:
                    same = each
        for each in known:
            if zone.holds(each.zone) and each is not same:
                each.states &= ~states
        if same is not None:
            same.states |= states
        else:
            known.append(Kept(zone, states))
        self.kept[zone.clocks] = [each for each in known if each.states != empty]
        return states

    def places(self) -> Iterator[Kept]:
        for known in self.kept.values():
            yield from known


class Search:
    """All that an exact cone can reach when only the clocks in `timed` keep time, the others falling due at will."""

    def __init__(self, moves: Moves, timed: tuple[int, ...]) -> None:
        self.moves, self.timed = moves, timed
        self.found = Found()
        self._relations: dict[frozenset[int], Relation] = {}
        self._images: dict[tuple[States, frozenset[int]], list[tuple[frozenset[int], frozenset[int], States]]] = {}
        self.count = 0

    def run(self) -> Trace | None:
        """A trace to the bad thing, with the fewest moments; None when it is not reached. May raise OutOfTime,
        TooLarge or TooManyPlaces."""
        level = [Place(self.moves.first, NOTHING_RUNS, None)]
        self.found.new(NOTHING_RUNS, self.moves.first, self.moves.sets.empty)
        while level:
            following: list[Place] = []
            for place in level:
                for due, rows in next_moments(place.zone):
                    self.moves.budget.check()
                    if place.states & self.relation(due).bad != self.moves.sets.empty:
                        return self._trace(place, due)
                    following += self._after(place, due, rows)
            level = following
        return None

    def relation(self, due: frozenset[int]) -> Relation:
        if due not in self._relations:
            self._relations[due] = Relation(self.moves, self.timed, due)
        return self._relations[due]

    def _after(self, place: Place, due: frozenset[int], rows: Rows) -> Iterator[Place]:
        """The new places after such a moment."""
        clocks, empty = self.moves.cone.clocks, self.moves.sets.empty
        for runs, starts, states in self._outcomes(place.states, due):
            windows = {k: (clocks[k].lo, clocks[k].hi) for k in starts}
            zone = after_moment(place.zone, rows, sorted(runs - starts), windows)
            states = self.found.new(zone, states, empty)
            if states != empty:
                self.count += 1
                if self.count > MOST_PLACES:
                    raise TooManyPlaces
                yield Place(states, zone, Coming(place, due, starts))

    def _outcomes(self, states: States, due: frozenset[int]) -> list[tuple[frozenset[int], frozenset[int], States]]:
        """The states after a moment, by the timed clocks that run and those that start."""
        key = (states, due)
        if key not in self._images:
            image = self.relation(due).image(states)
            self._images[key] = list(self._split(image, 0, frozenset(), frozenset()))
        return self._images[key]

    def _split(
        self, states: States, k: int, runs: frozenset[int], starts: frozenset[int]
    ) -> Iterator[tuple[frozenset[int], frozenset[int], States]]:
        sets = self.moves.sets
        if states == sets.empty:
            return
        if k == len(self.timed):
            yield runs, starts, states
            return
        clock = self.timed[k]
        starting = self.moves.starts[clock]
        running = states & self.moves.runs[clock]
        yield from self._split(sets.forget(states & ~self.moves.runs[clock], [starting]), k + 1, runs, starts)
        now = sets.meet_and_forget(running, sets.variable(starting), [starting])
        yield from self._split(now, k + 1, runs | {clock}, starts | {clock})
        on = sets.meet_and_forget(running, ~sets.variable(starting), [starting])
        yield from self._split(on, k + 1, runs | {clock}, starts)

    # the way to the bad thing

    def _trace(self, place: Place, due: frozenset[int]) -> Trace:
        moves = self.moves
        inputs, stored = self._moment(place.states & moves.diagram(moves.cone.bad), due)
        trace: Trace = [inputs]
        while place.coming is not None:
            coming, sets = place.coming, moves.sets
            wanted = coming.place.states
            for bit, (_, following) in zip(moves.cone.bits, moves.following, strict=True):
                wanted &= following if stored[bit.now >> 1] else ~following
            for clock in self.timed:
                wanted &= moves.starting[clock] if clock in coming.starts else ~moves.starting[clock]
            assert wanted != sets.empty
            inputs, stored = self._moment(wanted, coming.due)
            trace.append(inputs)
            place = coming.place
        return trace[::-1]

    def _moment(self, wanted: States, due: frozenset[int]) -> tuple[dict[Node, bool], dict[Node, bool]]:
        """One moment as is wanted, at which these clocks fall due: its inputs, and what is stored before it."""
        moves = self.moves
        for states in moves.lawful:
            wanted &= states
        for clock in self.timed:
            falls = moves.sets.variable(moves.dues[clock])
            wanted &= falls if clock in due else ~falls
        some = moves.sets.some(wanted)
        values = {node: some.get(number, False) for node, number in moves.before.items()}
        stored = {bit.now >> 1 for bit in moves.cone.bits}
        return (
            {node: value for node, value in values.items() if node not in stored},
            {node: value for node, value in values.items() if node in stored},
        )
