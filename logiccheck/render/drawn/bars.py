"""Draws the bars of a played scenario in lines of text: moments as ticks with their times above, one line a signal."""

from __future__ import annotations

import textwrap
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.widths import columns_of, padded
from logiccheck.report.bars import Bar, Bars, Stretch

Pieces: TypeAlias = tuple[tuple[str, str], ...]  # one line: texts, each with its style

GAP = "  "
ROOM, MOST_ROOM = 64, 80  # columns for the bars where no width is given, up to what lets time be to scale
DRAWN = "\u2588\u2500\u2502\u251c\u2534"  # what a stream must be able to take
KEPT = "\0"  # a blank within a time, which no line down may take
STRONG, FAINT = "bold", "dim"


@frozen
class Pens:
    """What is drawn with: on, off, the line down from a time, where a text begins, a tick on the axis."""

    on: str
    off: str
    down: str
    begin: str
    tick: str


FULL, PLAIN = Pens(*DRAWN), Pens("#", "-", "|", "|", "+")


@frozen
class Piece:
    """The moments from `first` up to but not `last`, drawn side by side; `at` has the column of each, and the end."""

    first: int
    last: int
    at: tuple[int, ...]
    even: bool  # whether time is to scale


def draw(bars: Bars, width: int | None, ascii_only: bool) -> Iterator[Pieces]:
    """The lines; in so many pieces below each other as the width asks for, in one where there is none.

    No text of a switch or number is ever cut, and no moment is left out.
    """
    pens = PLAIN if ascii_only else FULL
    titles = max((len(group.title) for group in bars.groups), default=0)
    names = max((columns_of(bar.name) for group in bars.groups for bar in group.bars), default=0)
    lead = max(len(GAP) + titles + len(GAP) + names + len(GAP), *map(columns_of, (*bars.titles, bars.end_title)))
    pieces = list(_pieces(bars, None if width is None else max(width - lead - 1, 1)))
    for number, piece in enumerate(pieces):
        if number:
            yield ()
        yield from _above(bars, piece, lead, pens)
        for group in bars.groups:
            shown = [bar for bar in group.bars if len(pieces) == 1 or _matters(bar, piece)]
            for at, bar in enumerate(shown):
                title = (group.title if at == 0 else "").ljust(titles)
                begin = padded(f"{GAP}{title}{GAP}{padded(bar.name, names)}", lead)
                yield (
                    (begin[: len(GAP) + titles], FAINT),
                    (begin[len(GAP) + titles :], ""),
                    (_line(bar, piece, pens), ""),
                )
    legend = f"{pens.on * 2} {bars.raised}, {pens.off * 2} {bars.lowered}."
    for line in (legend, *(() if all(piece.even for piece in pieces) else (bars.uneven,))):
        yield from _said(line, width)


def _said(text: str, width: int | None) -> Iterator[Pieces]:
    """A sentence, broken at blanks where there is a width."""
    lines = [text] if width is None else textwrap.wrap(text, max(width - len(GAP), 20), break_on_hyphens=False)
    for line in lines:
        yield ((GAP + line, FAINT),)


# ------------------------------------------------------------------------------------------------------- where it is


def _pieces(bars: Bars, room: int | None) -> Iterator[Piece]:
    """The moments in as few pieces as the room asks for, each with at least one moment."""
    count = len(bars.moments)
    if room is None:
        needs = _needs(bars, 0, count)
        rooms = range(max(sum(needs), ROOM), MOST_ROOM + 1)
        even = (piece for room in rooms if (piece := _placed(bars, 0, needs, room)).even)
        yield next(even, _placed(bars, 0, needs, max(sum(needs), ROOM)))
        return
    first = 0
    while first < count:
        fitting = last = first + 1
        needs = _needs(bars, first, last)
        while last <= count and sum(found := _needs(bars, first, last)) <= room:
            fitting, needs, last = last, found, last + 1
        yield _placed(bars, first, needs, room)
        first = fitting


def _needs(bars: Bars, first: int, last: int) -> list[int]:
    """The columns that the stretch after each of these moments needs, so that each text has its room."""
    needs = [1] * (last - first)
    for group in bars.groups:
        for bar in group.bars:
            for stretch, begin, end in _within(bar, first, last):
                lacking = columns_of(stretch.text) + 1 - sum(needs[begin:end]) if stretch.raised is None else 0
                if lacking > 0:
                    needs[_longest(bars, first + begin, first + end) - first] += lacking
    return needs


def _within(bar: Bar, first: int, last: int) -> Iterator[tuple[Stretch, int, int]]:
    """The stretches of a bar in a piece: each with where it begins and ends there, counted from its first moment."""
    start = bisect_right(bar.stretches, first, key=lambda stretch: stretch.begin) - 1
    end = bisect_left(bar.stretches, last, key=lambda stretch: stretch.begin)
    inside = bar.stretches[start:end]
    ends = [*(stretch.begin for stretch in inside[1:]), last]
    for stretch, until in zip(inside, ends, strict=True):
        yield stretch, max(stretch.begin, first) - first, until - first


def _longest(bars: Bars, begin: int, end: int) -> int:
    """Of these moments the first of those that last longest."""
    return max(range(begin, end), key=lambda at: (_lasts(bars, at), -at))


def _lasts(bars: Bars, at: int) -> Fraction:
    """How long it is from a moment to the next, or to the end."""
    return (bars.moments[at + 1] if at + 1 < len(bars.moments) else bars.end) - bars.moments[at]


def _placed(bars: Bars, first: int, needs: Sequence[int], room: int) -> Piece:
    """Time to scale if that leaves each text its room, else the longer a stretch the wider, by the digits of it."""
    last = first + len(needs)
    lasts = [_lasts(bars, at) for at in range(first, last)]
    if whole := sum(lasts):
        even = [int(sofar * room / whole) for sofar in accumulate(lasts, initial=Fraction(0))]
        if all(there - here >= need for (here, there), need in zip(pairwise(even), needs, strict=True)):
            return Piece(first, last, tuple(even), True)
    weights = [int(length / 1000).bit_length() for length in lasts]
    spare, weight = max(room - sum(needs), 0), max(sum(weights), 1)
    shares = [spare * sofar // weight for sofar in accumulate(weights, initial=0)]
    wide = [need + there - here for need, (here, there) in zip(needs, pairwise(shares), strict=True)]
    return Piece(first, last, tuple(accumulate(wide, initial=0)), False)


def _matters(bar: Bar, piece: Piece) -> bool:
    """Whether the bar changes in a piece; what never changes is shown in the first."""
    if len(bar.stretches) == 1:
        return piece.first == 0
    return any(stretch.begin >= max(piece.first, 1) for stretch, _, _ in _within(bar, piece.first, piece.last))


# ------------------------------------------------------------------------------------------------------- what is drawn


def _above(bars: Bars, piece: Piece, lead: int, pens: Pens) -> Iterator[Pieces]:
    """The times, each ending above its tick, in as few lines as keep them apart; below them the axis."""
    ticks = list(zip(piece.at, bars.titles[piece.first : piece.last], strict=False))
    if piece.last == len(bars.moments) and bars.end > bars.moments[-1]:
        ticks.append((piece.at[-1], bars.end_title))
    rows: list[list[str]] = []
    for column, title in ticks:
        begin = lead + column + 1 - len(title)
        row = next(
            (row for row in rows if not "".join(row[max(begin - len(GAP), 0) : begin + len(title)]).strip()), None
        )
        if row is None:
            row = [" "] * (lead + piece.at[-1] + 1)
            rows.append(row)
        row[begin : begin + len(title)] = title.replace(" ", KEPT)
    for number, row in enumerate(rows):
        above = rows[number + 1 :]
        for column, _ in ticks:
            if row[lead + column] == " " and any(each[lead + column] != " " for each in above):
                row[lead + column] = pens.down
    for row in reversed(rows):
        yield (("".join(row).rstrip().replace(KEPT, " "), STRONG),)
    marks = {column for column, _ in ticks}
    axis = "".join(pens.tick if column in marks else pens.off for column in range(piece.at[-1] + 1))
    yield (" " * lead, ""), (axis, FAINT)


def _line(bar: Bar, piece: Piece, pens: Pens) -> str:
    """One bar in a piece."""
    drawn = ""
    for stretch, begin, end in _within(bar, piece.first, piece.last):
        columns = piece.at[end] - piece.at[begin]
        if stretch.raised is None:
            drawn += (pens.begin + stretch.text) + pens.off * (columns - 1 - columns_of(stretch.text))
        elif stretch.text and columns_of(stretch.text) + 4 <= columns:
            drawn += f"{pens.on} {stretch.text} ".ljust(columns, pens.on)
        else:
            drawn += (pens.on if stretch.raised else pens.off) * columns
    return drawn
