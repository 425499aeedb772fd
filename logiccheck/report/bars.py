"""A played scenario as bars in time: one bar a signal, from moment to moment, said in words and not yet drawn."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base.frozen import frozen


@frozen
class Stretch:
    """What a signal reads from the moment of number `begin` (from 0) to the next stretch.

    `raised`: of what is on or off, whether it is on; None: it is neither, and only `text` tells. Where something is on
    or off, `text` is empty, or what to write there if it fits.
    """

    begin: int
    text: str
    raised: bool | None


@frozen
class Bar:
    """One signal: its stretches, the first from moment 0 on, no two after each other alike."""

    name: str
    label: str
    stretches: tuple[Stretch, ...]


@frozen
class BarGroup:
    """Bars of one place: hands, copper, box, or the timers."""

    title: str
    bars: tuple[Bar, ...]


@frozen
class Bars:
    """What to draw: the moments and the end in microseconds, each with its title; the bars; what the drawing means.

    `raised` and `lowered` say what the two kinds of bars stand for, `uneven` what is said where time is not to scale.
    """

    moments: tuple[Fraction, ...]
    titles: tuple[str, ...]
    end: Fraction
    end_title: str
    groups: tuple[BarGroup, ...]
    raised: str
    lowered: str
    uneven: str
