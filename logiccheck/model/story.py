"""A story: what hands and timers do, moment by moment, exact enough to be played again on the reference interpreter."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from itertools import pairwise

from logiccheck.base.frozen import frozen


@frozen
class Step:
    """One moment: `time` in microseconds, `world` the whole involved world from it on, `due` the timers that fall due.

    `world` maps a switch to the index of its position and a number to a value; only involved names are in it.
    """

    time: Fraction
    world: tuple[tuple[str, int | Fraction], ...]
    due: tuple[str, ...]


@frozen
class Run:
    """The run of timer `key` that starts at `start` lasts `duration` (both in microseconds)."""

    key: str
    start: Fraction
    duration: Fraction


class Answer(Enum):
    YES = "yes"
    NO = "no"
    OPEN = "not decided"


@frozen
class Aside:
    """What was found out beside a story.

    `settled`: it is the one to tell of all that are as short; else time ran out on the way to it. `apart`: whether the
    same can happen without any coincidence (see `Story.coincidences`); None where the story has none; `moments` of the
    shortest story without one. `fixed`: whether the same moments are possible when all runs of one timer last the same;
    None where no timer with a tolerance has to last any time; `lengths` by which they are, of these timers (in
    microseconds), and `nominal` when those are the nominal ones.
    """

    settled: bool = True
    apart: Answer | None = None
    moments: int = 0
    fixed: Answer | None = None
    lengths: tuple[tuple[str, int], ...] = ()
    nominal: bool = False


NOTHING_ELSE = Aside()


@frozen
class Story:
    """Steps in order from time 0; the last is where it goes wrong, or where the witness of `possible` is seen.

    `overdue`: the last step is the one just after its time, at which something is overdue; it changes nothing itself,
    and the step before it may have the same time.
    `involved` holds every name (world, wires, relays, senses, rules, outputs) that can matter to what it shows.
    """

    steps: tuple[Step, ...]
    runs: tuple[Run, ...]
    overdue: bool
    involved: frozenset[str]
    aside: Aside = NOTHING_ELSE

    @property
    def moments(self) -> int:
        """How long the story is: time 0, each moment that matters, and the moment of being overdue."""
        return len(self.steps)

    @property
    def coincidences(self) -> list[tuple[Fraction, tuple[str, ...], tuple[str, ...]]]:
        """The instants at which a world change falls together with another, or with a timer that falls due: the names
        of what changes, and the timers."""
        found = []
        for before, step in pairwise(self.steps):
            old = dict(before.world)
            changed = [name for name, value in step.world if old.get(name) != value]
            if changed and len(changed) + len(step.due) > 1:
                found.append((step.time, tuple(changed), step.due))
        return found
