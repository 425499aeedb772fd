"""A story: what hands and timers do, moment by moment, exact enough to be played again on the reference interpreter."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Step:
    """One moment: `time` in microseconds, `world` the whole involved world from it on, `due` the timers that fall due.

    `world` maps a switch to the index of its position and a number to a value; only involved names are in it.
    """

    time: Fraction
    world: tuple[tuple[str, int | Fraction], ...]
    due: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Run:
    """The run of timer `key` that starts at `start` lasts `duration` (both in microseconds)."""

    key: str
    start: Fraction
    duration: Fraction


@dataclass(frozen=True, slots=True)
class Story:
    """Steps in order from time 0; the last is where it goes wrong, or where the witness of `possible` is seen.

    `overdue`: the last step is the one just after its time, at which something is overdue; it changes nothing itself, and
    the step before it may have the same time.
    `involved` holds every name (world, wires, relays, senses, rules, outputs) that can matter to what it shows.
    """

    steps: tuple[Step, ...]
    runs: tuple[Run, ...]
    overdue: bool
    involved: frozenset[str]

    @property
    def moments(self) -> int:
        """How long the story is: time 0, each moment that matters, and the moment of being overdue."""
        return len(self.steps)
