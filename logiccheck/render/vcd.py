"""A played scenario as a value change dump (IEEE 1364-2005, clause 18) for any viewer of waveforms; pure ASCII.

Scopes are those of a table: hands, copper, box. A position of a switch is its number in the order written.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Context, Decimal
from fractions import Fraction
from itertools import groupby

from logiccheck.base.units import show_number
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.report import words_formats as words
from logiccheck.report.chart import Chart, Curve, Sort
from logiccheck.report.durations import said
from logiccheck.report.plain import printable
from logiccheck.report.report import PlayedPart, Report

FIRST, LAST = 33, 126  # the characters of which codes are made
DIGITS = 17  # of a number that no decimal number equals; any more a viewer would not keep


def render(report: Report, part: PlayedPart) -> str:
    """The scenario `part` of the report, which has a chart, from time 0 to its last instant, in microseconds."""
    assert part.chart is not None
    return "".join(f"{line}\n" for line in (*_head(report, part, part.chart), *_changes(part.chart)))


def stamps(moments: Sequence[Fraction]) -> tuple[int, ...]:
    """The whole microsecond at which each moment stands: its own or the one before, and after those before it."""
    found: list[int] = []
    for moment in moments:
        found.append(max(int(moment), found[-1] + 1) if found else int(moment))
    return tuple(found)


def _head(report: Report, part: PlayedPart, chart: Chart) -> Iterator[str]:
    yield f"$version logiccheck {VERSION} (language {LANGUAGE}) $end"
    yield "$comment"
    lines = [*_said(report, part, chart)]
    called = (text for curve in chart.curves for text in (curve.name, curve.label, *curve.words))
    lines += [] if "".join((*lines, *called)).isascii() else [words.BEYOND_ASCII]
    for line in lines:
        yield f"  {_ascii(line)}"
    yield "$end"
    yield "$timescale 1 us $end"
    signals = zip(chart.curves, _names(chart.curves), _codes(), strict=False)
    for place, group in groupby(signals, key=lambda signal: signal[0].place):
        yield f"$scope module {place} $end"
        for curve, name, code in group:
            yield f"$comment {_ascii(words.signal(curve.name, curve.label, _legend(curve)))} $end"
            kind = f"real 64 {code}" if curve.sort is Sort.NUMBER else f"wire {_width(curve)} {code}"
            yield f"$var {kind} {name} $end"
        yield "$upscope $end"
    yield "$enddefinitions $end"


def _said(report: Report, part: PlayedPart, chart: Chart) -> Iterator[str]:
    """All that is to be read before the waves."""
    yield words.signal(part.name, part.label, "")
    yield report.opening
    yield from part.remarks
    if report.basis is not None:
        yield report.basis.caution
    for file in report.files:
        yield words.hashed(file.path, file.sha256)
    yield from words.VALUES
    pairs = zip(chart.moments, stamps(chart.moments), strict=True)
    moved = [(f"{show_number(moment)} us", stamp) for moment, stamp in pairs if moment != stamp]
    yield words.rounded(moved) if moved else words.EXACT
    if not chart.settles:
        yield words.never_settles(said(chart.end))


def _legend(curve: Curve) -> str:
    """What its values mean, where they are not those of every signal of its sort."""
    match curve.sort:
        case Sort.NUMBER:
            return curve.unit
        case Sort.WIRE:
            return ""
        case Sort.BIT | Sort.CHOICE:
            return ", ".join(f"{at} {word}" for at, word in enumerate(curve.words))


def _changes(chart: Chart) -> Iterator[str]:
    at_time: dict[Fraction, list[str]] = {moment: [] for moment in chart.moments}
    for curve, code in zip(chart.curves, _codes(), strict=False):
        for change in curve.changes:
            at_time[change.time].append(_value(curve, change.value, code))
    times = stamps(chart.moments)
    for stamp, moment in zip(times, chart.moments, strict=True):
        yield f"#{stamp}"
        first = moment == chart.moments[0]
        yield from ("$dumpvars", *at_time[moment], "$end") if first else at_time[moment]
    if int(chart.end) > times[-1]:
        yield f"#{int(chart.end)}"


def _value(curve: Curve, value: Fraction | None, code: str) -> str:
    match curve.sort:
        case Sort.NUMBER:
            return f"r{'nan' if value is None else _real(value)} {code}"
        case Sort.WIRE:
            return f"{'x' if value is None else 'z10x'[int(value)]}{code}"
        case Sort.BIT | Sort.CHOICE:
            bits = "x" if value is None else f"{int(value):b}"
            return f"{bits}{code}" if _width(curve) == 1 else f"b{bits} {code}"


def _width(curve: Curve) -> int:
    """The bits that its values need."""
    return 1 if curve.sort is Sort.WIRE else max(1, (len(curve.words) - 1).bit_length())


def _real(value: Fraction) -> str:
    """The number itself where a decimal number equals it, else the nearest one of some digits."""
    exact = show_number(value)
    return exact if "/" not in exact else str(Context(prec=DIGITS).divide(Decimal(value.numerator), value.denominator))


def _codes() -> Iterator[str]:
    """Short codes without an end: "!", then each other printable character, then pairs of them, and so on."""
    characters = [chr(number) for number in range(FIRST, LAST + 1)]
    shorter = [""]
    while True:
        shorter = [code + character for code in shorter for character in characters]
        yield from shorter


def _names(curves: Sequence[Curve]) -> Iterator[str]:
    """The name of each signal in letters that every reader takes, no two alike."""
    taken: set[str] = set()
    for curve in curves:
        name = "".join(char if char.isascii() else f"_x{ord(char):x}_" for char in curve.name)
        while name in taken:
            name += "_"
        taken.add(name)
        yield name


def _ascii(text: str) -> str:
    """The text on one line; it cannot end the comment in which it stands."""
    return printable(text).encode("ascii", "backslashreplace").decode().replace("$end", "$ end")
