"""Edits of amounts: a duration that is longer or shorter, a threshold with another value or the other way round."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.span import Span
from logiccheck.base.units import UNITS, in_unit, show_number, show_quantity, show_time
from logiccheck.explain.blame import Blame, Why
from logiccheck.explain.edit import Change, Edit, EditKind
from logiccheck.explain.site import Site
from logiccheck.explain.terms import places, turned
from logiccheck.lang.program import (
    Bistable,
    Blink,
    CallsLasting,
    CallsWithin,
    Compare,
    Form,
    NeverLonger,
    NumberSense,
    OnlyAfter,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.walk import timer_windows

NEAREST = 6  # durations tried in each direction, beside those that the requirement names
CLOSER = (10, 5, 1)  # tolerances in per cent tried together with another duration
_SECOND, _MINUTE, _HOUR = 1_000_000, 60_000_000, 3_600_000_000
_STEPS = ((_SECOND, 100_000), (10 * _SECOND, 500_000), (_MINUTE, _SECOND), (10 * _MINUTE, 10 * _SECOND))
_LONG_STEP = _MINUTE  # how finely people give a time that is longer than all of these

Marks: TypeAlias = tuple[set[int], set[int]]  # the times of the requirement; these and all others that matter

AMOUNT = r"(?:-?\d+(?:\.\d+)?(?:/\d+)?\s*[^\W\d_]+|[^\W\d_]\w*)"  # a quantity, or the name of a constant


# ------------------------------------------------------------------------------------------------------- durations


def durations(site: Site, form: Form) -> Iterator[Edit]:
    """Another time for a timer, a filter or the start-up delay in a line that is to blame, the nearest first."""
    marks = _marks(site, form)
    for place in places(site):
        match place.spot.expr:
            case Timer(kind=kind, window=window, x=x, span=span) as timer if kind is not TimerKind.FILTER:
                tail = Span(span.file, x.span.end, span.end)
                for edit, other in _others(site, tail, r",\s*", window, marks):
                    after = turned(site, place, timer, replace(timer, window=other)) if other is not None else None
                    yield replace(edit, swapped=after)
            case Blink(on=on, off=off, x=x, span=span):
                tail = Span(span.file, x.span.end, span.end)
                yield from (edit for edit, _ in _others(site, tail, r",\s*on\s+", on, marks))
                yield from (edit for edit, _ in _others(site, tail, r",\s*off\s+", off, marks))
            case Signal(kind=SignalKind.SENSE, name=name):
                yield from _filter(site, name, marks)
            case Compare(sense=True, name=name):
                yield from _filter(site, name, marks)
            case _:
                pass
    for line in site.lines:
        yield from _around(site, line, marks)


def _around(site: Site, line: Blame, marks: Marks) -> Iterator[Edit]:
    """The times that stand in no expression: of a filter that waits, of a box that starts."""
    box = site.program.box
    if line.why is Why.FILTERED:
        yield from _filter(site, line.name, marks)
    elif line.why is Why.STARTING and box is not None and box.startup is not None and site.is_written(line.line):
        yield from (edit for edit, _ in _others(site, line.line, r"\bafter\s+", box.startup.window, marks))


def _filter(site: Site, name: str, marks: Marks) -> Iterator[Edit]:
    senses = site.program.box.senses if site.program.box else ()
    for sense in (sense for sense in senses if sense.name == name and sense.filter is not None):
        window = sense.filter.window if isinstance(sense.filter, Timer) else sense.filter
        if window is not None and site.is_written(sense.span):
            yield from (edit for edit, _ in _others(site, sense.span, r"\bfilter\s+", window, marks))


def _marks(site: Site, form: Form) -> Marks:
    """The times (microseconds) with which others may have to compete: of the requirement; and beside these of all
    timers, and what one is longer than another."""
    times: set[int] = set()
    match form:
        case NeverLonger(time=time) | CallsWithin(time=time) | CallsLasting(time=time):
            times.add(time)
        case OnlyAfter(time=time) if time is not None:
            times.add(time)
        case _:
            pass
    asked = set(times)
    for window in timer_windows(site.program).values():
        times |= {window.lo, window.hi, window.nominal}
    return asked, times | {abs(time - other) for time in asked for other in times} - {0}


def _others(site: Site, span: Span, lead: str, window: Window, marks: Marks) -> Iterator[tuple[Edit, Window | None]]:
    """The first duration behind `lead` in the span, replaced by the nearest that are just long, or short, enough; with
    what then comes of it, near enough for a first look, where that is all that changes."""
    found = re.search(lead + rf"({AMOUNT})", site.text(span))
    if found is None:
        return
    at = Span(span.file, span.begin + found.start(1), span.begin + found.end(1))
    at, alone = _constant(site, at)
    asked, times = marks
    near = sorted(_values(window, times), key=lambda v: _far(v, window))
    longer, shorter = ([v for v in near if (v > window.nominal) == side][:NEAREST] for side in (True, False))
    tried = {*longer, *shorter, *_values(window, asked), *_in_other_units(window.nominal)}
    for value in sorted(tried, key=lambda v: _far(v, window)):
        low, high = (int(Fraction(value * end, window.nominal)) for end in (window.lo, window.hi))
        after = Window(low, high, value) if alone else None
        yield Edit(EditKind.DURATION, (Change(at, show_time(value)),)), after
    if alone:
        yield from _closer(site, at, window, times)


def _closer(site: Site, at: Span, window: Window, times: set[int]) -> Iterator[tuple[Edit, Window | None]]:
    """Another duration with less tolerance, where that is written in per cent; both are changed."""
    found = re.match(r"\s*\+-\s*(\d+(?:\.\d+)?)\s*%", site.files[at.file][at.end :])
    if found is None:
        return
    behind = Span(at.file, at.end + found.start(1), at.end + found.end(1))
    for per_cent in (each for each in CLOSER if each < float(found[1])):
        share = Fraction(per_cent, 100)
        close = Window(int(window.nominal * (1 - share)), int(window.nominal * (1 + share)), window.nominal)
        values = sorted(_values(close, times), key=lambda v: _far(v, close))[:NEAREST]
        for value in values:
            after = Window(int(value * (1 - share)), int(value * (1 + share)), value)
            changes = (Change(at, show_time(value)), Change(behind, str(per_cent)))
            yield Edit(EditKind.DURATION, changes), after


def _far(value: int, window: Window) -> tuple[float, int]:
    """How far the time is from what it is now, and itself."""
    return max(value, window.nominal) / min(value, window.nominal), value


def _in_other_units(nominal: int) -> Iterator[int]:
    """The same number of something else: seconds for minutes, milliseconds for seconds."""
    for factor in (60, 1000):
        if nominal % factor == 0:
            yield nominal // factor
        yield nominal * factor


def _constant(site: Site, at: Span) -> tuple[Span, bool]:
    """Where the amount is written, and whether it stands there for this place alone: for a constant where it is
    declared, and everywhere."""
    name = site.text(at)
    if re.fullmatch(r"[^\W\d_]\w*", name):
        for file, text in site.files.items():
            found = re.search(rf"^[ \t]+{re.escape(name)}[ \t]*=[ \t]*({AMOUNT})", text, re.M)
            if found is not None:
                return Span(file, found.start(1), found.end(1)), False
    return at, True


def _values(window: Window, marks: set[int]) -> Iterator[int]:
    """Round times with which the timer, its tolerance kept, lies wholly below, at, or above one of the marks."""
    values: set[int] = set()
    for mark in marks:
        low = mark * Fraction(window.nominal, window.lo)  # from here on never shorter than the mark
        high = mark * Fraction(window.nominal, window.hi)  # up to here never longer
        for value in (low, high):
            step = _step(value)
            down = int(value // step) * step
            values |= {down - step, down, down + step}
    return (value for value in values if value > 0 and value != window.nominal)


def _step(value: Fraction) -> int:
    if value < _SECOND // 2:
        return 10_000
    return next((step for limit, step in _STEPS if value < limit), _LONG_STEP)


# ------------------------------------------------------------------------------------------------------ thresholds

_TURNED = {"above": "below", "below": "above", "at least": "at most", "at most": "at least"}
_EDGE = {"above": "at least", "at least": "above", "below": "at most", "at most": "below"}  # the constant itself, too
_OPERATOR = re.compile(r"\b(above|below|at\s+least|at\s+most)\s+")


def thresholds(site: Site) -> Iterator[Edit]:
    """A comparison the other way round, with or without the constant itself, or with another constant."""
    for place in places(site):
        expr = place.spot.expr
        if isinstance(expr, Compare):
            yield from _comparison(site, expr)
        elif isinstance(expr, Bistable) and not site.text(expr.span).startswith("bistable"):
            yield from _turned_pair(site, expr)


def _comparison(site: Site, expr: Compare) -> Iterator[Edit]:
    text = site.text(expr.span)
    found = _OPERATOR.search(text)
    if found is None:
        return
    word = " ".join(found[1].split())
    at = Span(expr.span.file, expr.span.begin + found.start(1), expr.span.begin + found.end(1))
    if text.startswith(expr.name):  # one of two thresholds keeps its sense
        for other in (_TURNED[word], _EDGE[word]):
            yield Edit(EditKind.THRESHOLD, (Change(at, other),))
    amount = Span(expr.span.file, expr.span.begin + found.end(), expr.span.end)
    for value in _bounds(site, expr):
        yield Edit(EditKind.THRESHOLD, (Change(amount, value),))


def _bounds(site: Site, expr: Compare) -> Iterator[str]:
    """The other constants with which this number is compared anywhere, as people write them, the nearest first."""
    name = expr.name
    for sense in site.program.box.senses if expr.sense and site.program.box else ():
        if isinstance(sense, NumberSense) and sense.name == name:
            name = sense.number
    for number in site.program.numbers:
        if number.name == name:
            others = sorted({*number.bounds} - {expr.bound}, key=lambda bound: (abs(bound - expr.bound), bound))
            decimal = (bound for bound in others if "/" not in show_number(in_unit(bound, UNITS[number.unit])))
            yield from (show_quantity(bound, number.unit) for bound in decimal)


def _turned_pair(site: Site, expr: Bistable) -> Iterator[Edit]:
    """Two thresholds with the way up and the way down exchanged."""
    found = re.fullmatch(r"(\w+\s+)(above|below)(\s+.+?\s+until\s+)(above|below)(\s+.+)", site.text(expr.span), re.S)
    pair = re.fullmatch(rf"(\s+)({AMOUNT})(\s+until\s+)", found[3]) if found else None
    if found is None or pair is None:
        return
    new = f"{found[1]}{found[4]}{found[5]}{pair[3]}{found[2]}{pair[1]}{pair[2]}"
    yield Edit(EditKind.THRESHOLD, (Change(expr.span, new),))
