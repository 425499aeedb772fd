"""What is stored before a moment and after it: bits, and timers that run until their deadline.

A moment is a row of looks (reactions, or the looks of an observer). The first one finds what the moment before left,
and sees the timers that fall due; each later one finds what the look before it left, and sees nothing new fall due.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from logiccheck.audit.gates import NO, Gate, Gates, Lit
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Micros


@frozen
class Clock:
    """A timer through one moment. A run that begins at time t ends at its deadline in [t + lo, t + hi] (microseconds).

    `runs`: before the moment; `due`: and its deadline is this moment; `goes_on`: and it still runs after it;
    `begins`: a run that began at this moment runs after it.
    """

    lo: Micros
    hi: Micros
    runs: Lit
    due: Lit
    goes_on: Lit
    begins: Lit


@dataclass(slots=True)
class Past:
    """Everything that is stored, by name: `before` the moment (an input) and `after` it. Before time 0 all is false."""

    gates: Gates
    before: dict[str, Lit] = field(default_factory=dict)
    after: dict[str, Lit] = field(default_factory=dict)
    clocks: dict[str, Clock] = field(default_factory=dict)
    dues: dict[str, Gate] = field(default_factory=dict)

    def bit(self, name: str) -> Lit:
        if name not in self.before:
            self.before[name] = self.gates.input()
        return self.before[name]

    def kept(self, name: str, after: Lit) -> Lit:
        """A bit whose value after the moment is known; its value before it."""
        self.keep(name, after)
        return self.bit(name)

    def keep(self, name: str, after: Lit) -> None:
        """States what is stored; questions that share what they remember each state the same."""
        if self.after.get(name, after) != after:
            raise AssertionError(f"{name} is stored in two ways")
        self.bit(name)
        self.after[name] = after

    def follow(self, key: str, clock: Clock) -> None:
        """States what becomes of a timer; under one key there is one timer, with one time."""
        if self.clocks.get(key, clock) != clock:
            raise AssertionError(f"{key} is timed in two ways")
        self.clocks[key] = clock

    def due(self, key: str) -> Lit:
        if key not in self.dues:
            self.dues[key] = self.gates.input()
        return self.dues[key]


@frozen
class Run:
    """A timer as a look finds it: it `runs`, it falls `due` in this look, the run is an `old` one (it began at an
    earlier moment) and is not over."""

    runs: Lit
    due: Lit
    old: Lit


class Look:
    """One reaction, or one look of an observer: what it finds, and what it leaves."""

    def __init__(self, past: Past, earlier: Look | None = None) -> None:
        self.past, self.earlier = past, earlier
        self.gates = past.gates
        self.left: dict[str, Lit] = {}
        self.timers: dict[str, tuple[Micros, Micros]] = {}
        self._old: dict[str, Lit] = {}

    def found(self, name: str) -> Lit:
        return self.past.bit(name) if self.earlier is None else self.earlier.left[name]

    def leave(self, name: str, value: Lit) -> None:
        if name in self.left:
            raise AssertionError(f"{name} is left twice")
        self.left[name] = value

    def run(self, key: str) -> Run:
        runs = self.found(f"{key}.run")
        if self.earlier is not None:
            return Run(runs, NO, self.earlier._old[key])
        due = self.gates.both(runs, self.past.due(key))
        return Run(runs, due, self.gates.both(runs, -due))

    def leave_run(self, key: str, window: tuple[Micros, Micros], begins: Lit, goes_on: Lit) -> Lit:
        """A new run begins, or the one that was found goes on if it is not over; whether the timer runs now."""
        gates, found = self.gates, self.run(key)
        runs = gates.either(begins, gates.all([goes_on, found.runs, -found.due]))
        self.leave(f"{key}.run", runs)
        self._old[key] = gates.all([goes_on, found.old, -begins])
        self.timers[key] = window
        return runs

    def close(self) -> None:
        """This look was the last one of its moment: what it leaves is stored."""
        for name, value in self.left.items():
            self.past.keep(name, value)
        first: Look = self
        while first.earlier is not None:
            first = first.earlier
        for key, (lo, hi) in self.timers.items():
            start, after = first.run(key), self.left[f"{key}.run"]
            old = self._old[key]
            begins = self.gates.both(after, -old)
            self.past.follow(key, Clock(lo, hi, start.runs, start.due, old, begins))
