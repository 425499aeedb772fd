"""Judges a played timeline by the sentences that say what requirements, assumptions and expectations mean.

Everything here is written from those sentences, with the quantifiers they have: this is what the engines are held
against. `s` and `u` are instants, `r` stands for the `while`, `since` or `excused by` part.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable
from typing import TypeAlias, assert_never

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import (
    AfterLasting,
    And,
    CallsLasting,
    CallsWithin,
    ChangesOnlyWhile,
    Const,
    Excluded,
    Expectation,
    Expr,
    Form,
    Given,
    LastsAtLeast,
    LastsAtMost,
    Never,
    NeverLonger,
    Number,
    OnlyAfter,
    Or,
    Possible,
    Switch,
    WaitsFor,
)
from logiccheck.model.memory import Time, whole
from logiccheck.model.observed import signal
from logiccheck.model.signals import Instant, Steps, each_instant, on_delay
from logiccheck.model.timeline import Timeline


def violated(timeline: Timeline, form: Form) -> Instant | None:
    """The first instant at which it is certain that the requirement does not hold; None if the timeline breaks nothing.

    An instant `after` a time is the "just after t" at which something becomes overdue. A moment that never settles
    has no settled values and breaks nothing. No single timeline breaks `possible`: see `witnessed`.
    """
    return _settled(timeline, _violated(timeline, form))


def witnessed(timeline: Timeline, q: Expr) -> Instant | None:
    """The first instant at which settled q holds: a witness of `possible q`."""
    return _settled(timeline, _first(signal(timeline, q)))


def _settled(timeline: Timeline, instant: Instant | None) -> Instant | None:
    """The instant, unless it is the one that never settles: what is settled before it is all that can be judged."""
    return None if instant is None or (instant.time == timeline.end and not timeline.settles) else instant


def _violated(timeline: Timeline, form: Form) -> Instant | None:
    match form:
        case Never(p=p, r=r, instant=True):
            return _ever(timeline, _both(p, r))
        case Never(p=p, r=r):
            return _first(signal(timeline, _both(p, r)))
        case NeverLonger(p=p, r=r, time=time):
            return _longer(timeline, signal(timeline, _both(p, r)), time)
        case CallsWithin():
            return _unanswered(timeline, form)
        case CallsLasting():
            return _too_short(timeline, form)
        case OnlyAfter():
            return _unprepared(timeline, form)
        case WaitsFor():
            return _not_waiting(timeline, form)
        case Possible():
            return None
        case _:
            assert_never(form)


def _both(p: Expr, r: Expr | None) -> Expr:
    return p if r is None else And((p, r))


def _first(x: Steps) -> Instant | None:
    return next((u for u in x.instants() if x.value(u)), None)


def _ever(timeline: Timeline, p: Expr) -> Instant | None:
    """`even for an instant` looks at every reaction."""
    for played in timeline.settled:
        if any(reaction.holds(p) for reaction in played.moment.reactions):
            return Instant(played.time)
    return None


def _longer(timeline: Timeline, p: Steps, time: Time) -> Instant | None:
    """p holds through no interval longer than t; a gap that lasts no time does not end it."""
    gaps = [mark for mark in p.marks if not p.value(Instant(mark, after=True))]
    for begin in p.marks:
        overdue = begin + time
        through = bisect_left(gaps, begin) == bisect_right(gaps, overdue)
        if overdue <= timeline.end and through:
            return Instant(overdue, after=True)
    return None


def _unanswered(timeline: Timeline, form: CallsWithin) -> Instant | None:
    """Every instant with p, at a moment or between, needs q (or r) then or at most t later.

    Between two marks the first instants have the least time left and speak for the others.
    """
    p, answer = signal(timeline, form.p), signal(timeline, form.q if form.r is None else Or((form.q, form.r)))
    instants = _instants(timeline, p.marks, answer.marks)
    answered = _first_from(instants, answer.value)
    for s in filter(p.value, instants):
        limit, u = s.later(form.time), answered(s)
        if limit.time <= timeline.end and not (u is not None and u <= limit):
            return Instant(limit.time, after=True)
    return None


def _too_short(timeline: Timeline, form: CallsLasting) -> Instant | None:
    """From every instant with p on, q holds for t, or until r.

    The t is over when the time s + t comes. Marks are set t before each change of q and r: so whatever is found for
    just after a mark is found for every instant up to the next.
    """
    p, q, r = signal(timeline, form.p), signal(timeline, form.q), signal(timeline, form.r or Const(False))
    earlier = [mark - form.time for mark in (*q.marks, *r.marks)]
    instants = _instants(timeline, p.marks, q.marks, r.marks, earlier)
    missing, excused = _first_from(instants, lambda u: not q.value(u)), _first_from(instants, r.value)
    found: list[Instant] = []
    for s in filter(p.value, instants):
        limit, u, until = s.later(form.time), missing(s), excused(s)
        if u is not None and (u < limit or (u == limit and s.after)) and (until is None or u < until):
            found.append(u)
    return min(found, default=None)


def _unprepared(timeline: Timeline, form: OnlyAfter) -> Instant | None:
    """Each rise of q needs p (unbroken for t) at some instant since q last fell, or since the last instant with r."""
    q, p = signal(timeline, form.q), signal(timeline, form.p)
    r = None if form.r is None else signal(timeline, form.r)
    if form.time is not None:
        p = _has_lasted(timeline, p, form.time)
    instants = _instants(timeline, q.marks, p.marks, r.marks if r else ())
    prepared, released = _first_from(instants, p.value), list(filter(r.value, instants)) if r else []
    fell = Instant(0)
    for rise, fall in q.runs():
        since = fell if r is None else _last(released, instants, rise)
        u = prepared(since)
        if u is None or u > rise:
            return rise
        fell = fall or fell
    return None


def _last(released: list[Instant], instants: list[Instant], rise: Instant) -> Instant:
    """The last instant with r (all such are `released`), the rise included; the start if there is none.

    Where r holds up to a mark but not at it there is no last instant, and that mark is the first one after all of them.
    """
    before = bisect_right(released, rise)
    last = released[before - 1] if before else Instant(0)
    if last.after and last != rise:
        return instants[bisect_right(instants, last)]
    return last


def _not_waiting(timeline: Timeline, form: WaitsFor) -> Instant | None:
    """No q from each instant with p (from the start) to the first r; r at the same instant ends it."""
    q, r = signal(timeline, form.q), signal(timeline, form.r)
    p = None if form.p is None else signal(timeline, form.p)
    waiting = p is None
    for u in _instants(timeline, q.marks, r.marks, p.marks if p else ()):
        waiting = (waiting or (p is not None and p.value(u))) and not r.value(u)
        if waiting and q.value(u):
            return u
    return None


def _has_lasted(timeline: Timeline, p: Steps, time: Time) -> Steps:
    """`has lasted t` means on_delay everywhere; a run under way at time 0 began at 0."""
    return on_delay(p, lambda _: time, timeline.end)


def _first_from(instants: list[Instant], holds: Callable[[Instant], bool]) -> Callable[[Instant], Instant | None]:
    """Says of an instant which of `instants` is the first from it on, itself included, at which that holds; None if
    none is."""
    held = list(filter(holds, instants))

    def first(s: Instant) -> Instant | None:
        at = bisect_left(held, s)
        return held[at] if at < len(held) else None

    return first


def _instants(timeline: Timeline, *marks: Iterable[Time]) -> list[Instant]:
    """At all these marks within the timeline, and just after each, in order."""
    return list(each_instant(sorted({mark for each in marks for mark in each if 0 <= mark <= timeline.end})))


# --------------------------------------------------------------------------------------------------- what is given


def given_violated(timeline: Timeline, given: Given) -> Instant | None:
    """The first instant at which the timeline does not meet the assumption; None if all of it does."""
    return _settled(timeline, _given_violated(timeline, given))


def _given_violated(timeline: Timeline, given: Given) -> Instant | None:
    match given:
        case Excluded(p=p):
            return _first(signal(timeline, p))
        case LastsAtLeast(p=p, time=time):
            runs = [(begin, over) for begin, over in signal(timeline, p).runs() if begin.time > 0 and over is not None]
            return next((over for begin, over in runs if over.time - begin.time < time), None)
        case LastsAtMost(p=p, time=time):
            ends = [(Instant(begin.time + time), over) for begin, over in signal(timeline, p).runs()]
            late = (end for end, over in ends if end.time <= timeline.end and (over is None or over > end))
            return next(late, None)
        case ChangesOnlyWhile(name=name, y=y):
            allowed = signal(timeline, y)
            return _first_move(timeline, name, lambda time, old, new: not allowed.before(time))
        case AfterLasting(c=c, p=p, time=time):
            lasted, met = _has_lasted(timeline, signal(timeline, p), time), signal(timeline, c)
            instants = _instants(timeline, lasted.marks, met.marks)
            return next((u for u in instants if lasted.value(u) and not met.value(u)), None)
        case _:
            assert_never(given)


@frozen
class Broken:
    """An assumption that a timeline does not meet, and when first.

    `what` is an item of `given`, a switch that is not passed one by one, a number that jumps, or a fact of `at first`.
    """

    what: Given | Switch | Number | Expr
    instant: Instant


def broken(timeline: Timeline) -> tuple[Broken, ...]:
    """Every assumption of the program that the timeline does not meet, in the order of the program.

    That all values are in their ranges needs no judging: no other world can be played. Where nothing settles, not even
    the first moment, nothing can be judged.
    """
    program = timeline.program
    if not timeline.settled:
        return ()
    found: list[tuple[Given | Switch | Number | Expr, Instant | None]] = []
    for switch in program.switches:
        if switch.one_by_one:
            found.append((switch, _first_move(timeline, switch.name, _skip)))
    for number in program.numbers:
        if not number.jumps:
            found.append((number, _first_move(timeline, number.name, _jump(number))))
    for fact in program.at_first:
        found.append((fact, None if signal(timeline, fact).value(Instant(0)) else Instant(0)))
    for given in program.givens:
        found.append((given, given_violated(timeline, given)))
    return tuple(Broken(what, instant) for what, instant in found if instant is not None)


Unlawful: TypeAlias = Callable[[Time, Time, Time], bool]  # at this time, from this value, to that one


def _first_move(timeline: Timeline, name: str, unlawful: Unlawful) -> Instant | None:
    """The first moment at which this switch or number of the world moves as it must not."""
    for before, now in timeline.steps():
        if before is None:
            continue
        old, new = before.world[name], now.world[name]
        if old != new and unlawful(now.time, old, new):
            return Instant(now.time)
    return None


def _skip(_: Time, old: Time, new: Time) -> bool:
    """One by one: a switch stays or moves to a neighbour."""
    return not -1 <= new - old <= 1


def _jump(number: Number) -> Unlawful:
    """Each constant is an interval of its own and between two lies one more: a number moves on by one at a time."""

    def place(value: Time) -> int:
        return 2 * len([bound for bound in number.bounds if bound < value]) + (value in number.bounds)

    return lambda _, old, new: not -1 <= place(new) - place(old) <= 1


# ---------------------------------------------------------------------------------------------------- expectations


def expectation_reached(timeline: Timeline, expectation: Expectation) -> bool:
    """Whether the timeline reaches all of its time with settled values: otherwise the expectation does not hold."""
    until = expectation.time if expectation.until is None else expectation.until
    return until < timeline.end or (until == timeline.end and timeline.settles)


def expectation_breaks(timeline: Timeline, expectation: Expectation) -> Instant | None:
    """The first instant at which settled p does not hold, at its time or from then to `until`, both included, as far
    as the timeline goes; None if there is none."""
    begin = whole(expectation.time)
    until = begin if expectation.until is None else whole(expectation.until)
    p = signal(timeline, expectation.p)
    instants = _instants(timeline, (mark for mark in p.marks if begin <= mark <= until), [begin, until])
    end = Instant(until) if timeline.settles else min(Instant(until), Instant(timeline.end - 1, True))
    within = (u for u in instants if Instant(begin) <= u <= end)
    return next((u for u in within if not p.value(u)), None)
