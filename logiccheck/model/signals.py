"""Truth over time as step signals, and what timers, bistables and edges make of them when nobody can clear them.

A signal is given from time 0 on at its marks: its value *at* each mark, and its value *just after*, which lasts until
the next mark. This is how memory that is written in a requirement or an assumption works: on settled values, never
cleared, with no edge at time 0. Each is asked twice at a mark: at the moment itself, and just after, without edges.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.model.memory import Time


@dataclass(frozen=True, order=True, slots=True)
class Instant:
    """An instant (microseconds), or with `after` the time just after it: all that follows it up to the next mark."""

    time: Time
    after: bool = False

    def later(self, time: Time) -> Instant:
        return Instant(self.time + time, self.after)


Stretch: TypeAlias = tuple[Instant, Instant | None]  # from the one up to, not including, the other (None: for ever)


@frozen
class Steps:
    """A step signal: `marks` rise from 0, `at[i]` is the value at mark i, `after[i]` from then to the next."""

    marks: tuple[Time, ...]
    at: tuple[bool, ...]
    after: tuple[bool, ...]

    def value(self, instant: Instant) -> bool:
        i = bisect_right(self.marks, instant.time) - 1
        return self.at[i] if instant.time == self.marks[i] and not instant.after else self.after[i]

    def before(self, time: Time) -> bool:
        """The value just before this time; at time 0 the value at time 0."""
        i = bisect_right(self.marks, time) - 1
        if time > self.marks[i]:
            return self.after[i]
        return self.after[i - 1] if i else self.at[0]

    def instants(self) -> Iterator[Instant]:
        return each_instant(self.marks)

    def runs(self, value: bool = True) -> Iterator[Stretch]:
        """Each unbroken run of this value: its first instant, and the first instant after it (None: it goes on)."""
        begin = None
        for instant in self.instants():
            if self.value(instant) is value and begin is None:
                begin = instant
            elif self.value(instant) is not value and begin is not None:
                yield begin, instant
                begin = None
        if begin is not None:
            yield begin, None


def each_instant(marks: Iterable[Time]) -> Iterator[Instant]:
    """At each mark and just after it, in order."""
    for mark in marks:
        yield Instant(mark)
        yield Instant(mark, after=True)


def steps(marks: Iterable[Time], value: Callable[[Instant], bool]) -> Steps:
    """The signal with these values at these marks (any order, more than once if need be; 0 among them)."""
    ordered = tuple(sorted(set(marks)))
    at = tuple(value(Instant(mark)) for mark in ordered)
    return Steps(ordered, at, tuple(value(Instant(mark, after=True)) for mark in ordered))


# ------------------------------------------------------------------------------------------------- memory over time

Lasting: TypeAlias = Callable[[Time], Time]  # how long the run lasts that begins at this time


def on_delay(x: Steps, lasts: Lasting, end: Time) -> Steps:
    """True while x has been true without a break for at least the time."""
    come = [(max(begin, Instant(begin.time + lasts(begin.time))), over) for begin, over in x.runs()]
    return _during(come, x.marks, end)


def off_delay(x: Steps, lasts: Lasting, end: Time) -> Steps:
    """True while x is true, and until the time has passed since it fell; false again exactly then."""
    runs: list[Stretch] = list(x.runs())
    falls = [over for _, over in runs if over is not None]
    return _during(runs + [(over, Instant(over.time + lasts(over.time))) for over in falls], x.marks, end)


def one_shot(x: Steps, lasts: Lasting, end: Time) -> Steps:
    """From a rise of x on, true for the time whatever x does; a rise before it ends, or exactly then, is lost."""
    shots: list[Stretch] = []
    busy: Time = -1  # the end of the last shot
    for mark in rising_marks(x):
        if mark > busy:
            busy = mark + lasts(mark)
            shots.append((Instant(mark), Instant(busy)))
    return _during(shots, x.marks, end)


def blink(x: Steps, on_lasts: Lasting, off_lasts: Lasting, end: Time) -> Steps:
    """While x is true: on first, then off, and so on; starts afresh with each run of x."""
    phases: list[Stretch] = []
    for begin, over in x.runs():
        on = begin
        while on.time <= end and (over is None or on < over):
            off = Instant(on.time + on_lasts(on.time))
            phases.append((on, off if over is None else min(off, over)))
            on = off.later(off_lasts(off.time))
    return _during(phases, x.marks, end)


def bistable(set_: Steps, reset: Steps, set_wins: bool) -> Steps:
    """Set by the one, reset by the other; starts false."""

    def follow(stored: bool, instant: Instant) -> bool:
        s, r = set_.value(instant), reset.value(instant)
        return s or (stored and not r) if set_wins else not r and (s or stored)

    return _stored((*set_.marks, *reset.marks), follow)


def impulse(x: Steps, reset: Steps) -> Steps:
    """Turned over by each rise of x; reset wins; starts false."""
    rises = set(rising_marks(x))

    def follow(stored: bool, instant: Instant) -> bool:
        turned = stored != (instant.time in rises and not instant.after)
        return turned and not reset.value(instant)

    return _stored((*x.marks, *reset.marks), follow)


def edge(x: Steps, rising: bool) -> Steps:
    """True at the moments at which x rises (falls), and at no other instant; never at time 0."""
    changes = {mark for mark in x.marks if x.before(mark) is not rising and x.value(Instant(mark)) is rising}
    return steps(x.marks, lambda instant: instant.time in changes and not instant.after)


def previous(x: Steps) -> Steps:
    """At a moment the value just before it (at time 0: at it), in between the value itself."""
    return steps(x.marks, lambda instant: x.value(instant) if instant.after else x.before(instant.time))


def rising_marks(x: Steps) -> list[Time]:
    """The moments at which x rises; none at time 0."""
    return [mark for mark in x.marks if x.value(Instant(mark)) and not x.before(mark)]


def _stored(marks: Iterable[Time], follow: Callable[[bool, Instant], bool]) -> Steps:
    stored, values = False, {}
    ordered = sorted(set(marks))
    for instant in each_instant(ordered):
        stored = values[instant] = follow(stored, instant)
    return steps(ordered, values.__getitem__)


def _during(stretches: Iterable[Stretch], marks: Iterable[Time], end: Time) -> Steps:
    """True in each of these stretches; what comes after `end` is left out."""
    known = [(begin, over) for begin, over in stretches if over is None or begin < over]
    edges = [instant.time for stretch in known for instant in stretch if instant is not None]
    begins: list[Instant] = []  # of stretches that do not touch
    ends: list[Instant | None] = []
    for begin, over in sorted(known, key=lambda stretch: stretch[0]):
        last = ends[-1] if ends else begin
        if begins and (last is None or begin <= last):
            ends[-1] = None if last is None or over is None else max(last, over)
        else:
            begins.append(begin)
            ends.append(over)

    def value(instant: Instant) -> bool:
        at = bisect_right(begins, instant) - 1
        if at < 0:
            return False
        over = ends[at]
        return over is None or instant < over

    return steps([mark for mark in (*marks, *edges) if mark <= end], value)
