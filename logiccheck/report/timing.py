"""Makes the bars of a played scenario: what changes and what is expected, each signal in the words of its place."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from fractions import Fraction
from itertools import groupby

from logiccheck.base.units import UNITS, quantity, said_quantity
from logiccheck.report import words_played as words
from logiccheck.report.bars import Bar, BarGroup, Bars, Stretch
from logiccheck.report.chart import Chart, Curve, Sort
from logiccheck.report.durations import said
from logiccheck.report.stories import AT_FIRST
from logiccheck.report.table import TIMERS
from logiccheck.study.simulate import TimerRun

DEAD, LIVE = 0, 1  # what a wire reads; the rest, grounded or both, is told in words


def bars(chart: Chart, runs: Collection[TimerRun], expected: Collection[str], everything: bool) -> Bars:
    """The bars of a scenario that settles: of the signals that change or are `expected`, or else of `everything`.

    A timer has a bar if its time ran out at least once.
    """
    numbers = {moment: number for number, moment in enumerate(chart.moments)}
    shown = [curve for curve in chart.curves if everything or curve.name in expected or len(curve.changes) > 1]
    groups = [
        BarGroup(place, tuple(_bar(curve, numbers) for curve in curves))
        for place, curves in groupby(shown, key=lambda curve: curve.place)
    ]
    if timers := tuple(_timers(runs, numbers)):
        groups.append(BarGroup(TIMERS, timers))
    titles = tuple(AT_FIRST if moment == 0 else said(moment) for moment in chart.moments)
    return Bars(
        chart.moments,
        titles,
        chart.end,
        said(chart.end),
        tuple(groups),
        raised=words.RAISED,
        lowered=words.LOWERED,
        uneven=words.NOT_TO_SCALE,
    )


def _bar(curve: Curve, numbers: Mapping[Fraction, int]) -> Bar:
    stretches = (Stretch(numbers[change.time], *_told(curve, change.value)) for change in curve.changes)
    return Bar(curve.name, curve.label, tuple(stretches))


def _told(curve: Curve, value: Fraction | None) -> tuple[str, bool | None]:
    """The value in words where it is neither on nor off; whether it is on."""
    if value is None:
        return words.NOTHING, None
    match curve.sort:
        case Sort.BIT:
            return "", bool(value)
        case Sort.WIRE if value in (DEAD, LIVE):
            return "", value == LIVE
        case Sort.NUMBER:
            return said_quantity(quantity(value, UNITS[curve.unit]).value, curve.unit), None
        case _:
            return curve.words[int(value)], None


def _timers(runs: Collection[TimerRun], numbers: Mapping[Fraction, int]) -> Iterator[Bar]:
    """On while the timer runs, with how long if its time ran out."""
    for key in sorted({run.key for run in runs if run.due}):
        stretches = {0: Stretch(0, "", False)}
        for run in sorted((run for run in runs if run.key == key), key=lambda run: run.start):
            begin = numbers[Fraction(run.start)]
            lasts = said(Fraction(run.end - run.start)) if run.due and run.end is not None else ""
            stretches[begin] = Stretch(begin, lasts, True)
            if run.end is not None:
                end = numbers[Fraction(run.end)]
                stretches[end] = Stretch(end, "", False)
        yield Bar(key, "", tuple(stretches[at] for at in sorted(stretches)))
