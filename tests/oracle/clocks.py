"""Dense time made finite: clocks that differ in nothing any story can tell are one and the same.

All windows are whole multiples of one unit. Two readings of the running clocks with the same whole parts, and the same
order of their fractions (which of them are 0 included), allow the same events in the same order from here on, whatever
the exact fractions: an event can fall into the gap between two neighbouring fractions, or onto one, in either reading
(R. Alur, D. L. Dill, "A theory of timed automata", 1994: regions). So each class of readings is held by one reading on
a grid: with n clocks the unit is cut into 2 * (n + 1) ticks, the fractions that occur stand on even ticks in their
order, and the odd ticks between them are the gaps. After each event the fractions are spread anew, so the grid never
gets too coarse: this is exact, not an approximation. A clock never runs past its window, so all readings are bounded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from math import gcd
from typing import TypeAlias

from logiccheck.lang.program import Window
from tests.oracle.kernel import Clock

Reading: TypeAlias = tuple[int, ...]  # ticks, one for each running clock


@dataclass(frozen=True)
class Grid:
    """How fine time is cut for one program: `unit` divides every window, and is `ticks` ticks."""

    windows: Mapping[Clock, tuple[int, int]]  # lo and hi in ticks
    ticks: int

    @staticmethod
    def of(windows: Mapping[Clock, Window]) -> Grid:
        unit = gcd(*(bound for window in windows.values() for bound in (window.lo, window.hi)))
        ticks = 2 * (len(windows) + 1)
        return Grid({c: (w.lo * ticks // unit, w.hi * ticks // unit) for c, w in windows.items()}, ticks)

    def spread(self, reading: Iterable[int]) -> Reading:
        """The one reading that stands for all like this: fractions at 0, 2, 4, ... ticks, in the order they have."""
        values = tuple(reading)
        fractions = sorted({0, *(value % self.ticks for value in values)})
        places = {fraction: 2 * rank for rank, fraction in enumerate(fractions)}
        return tuple(value - value % self.ticks + places[value % self.ticks] for value in values)

    def delays(self, clocks: tuple[Clock, ...], reading: Reading) -> Iterator[tuple[int, Reading]]:
        """Every way to let time pass up to the first instant at which some clock is at its end, in order: ticks, and
        the reading then. With no clock running one is enough: nothing depends on how long."""
        if not clocks:
            yield 1, ()
            return
        rests = [self.windows[clock][1] - value for clock, value in zip(clocks, reading, strict=True)]
        edges = sorted({rest % self.ticks or self.ticks for rest in rests})
        begin, at, end = 0, 0, min(rests)
        while True:
            for edge in edges:
                for delay in (at + 1, begin + edge):
                    yield delay, tuple(value + delay for value in reading)
                at = begin + edge
                if at == end:
                    return
            begin += self.ticks

    def falls(self, clocks: tuple[Clock, ...], reading: Reading) -> tuple[list[Clock], list[Clock]]:
        """The clocks that must end at this instant, and those that may."""
        must, may = [], []
        for clock, value in zip(clocks, reading, strict=True):
            lo, hi = self.windows[clock]
            if value == hi:
                must.append(clock)
            elif value >= lo:
                may.append(clock)
        return must, may


def subsets(clocks: list[Clock]) -> Iterator[frozenset[Clock]]:
    for size in range(len(clocks) + 1):
        for chosen in combinations(clocks, size):
            yield frozenset(chosen)
