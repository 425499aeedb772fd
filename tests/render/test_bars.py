"""The bars of a played scenario, drawn: whole drawings, and what holds of all of them at every width."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.widths import columns_of
from logiccheck.render.drawn.bars import FULL, Pieces, draw
from logiccheck.report.bars import Bar, BarGroup, Bars, Stretch

SECOND = Fraction(1_000_000)


def bars(times: list[int | Fraction], end: int | Fraction, *groups: BarGroup) -> Bars:
    """A drawing of moments in seconds."""
    return Bars(
        tuple(Fraction(time) * SECOND for time in times),
        tuple("at first" if time == 0 else f"{time} s" for time in times),
        Fraction(end) * SECOND,
        f"{end} s",
        groups,
        "on (live, closed)",
        "off (dead, open)",
        "Time is not to scale.",
    )


def text(*lines: Pieces) -> list[str]:
    """The lines as they are read."""
    return ["".join(piece for piece, _ in line).rstrip() for line in lines]


def onoff(name: str, *changes: int) -> Bar:
    """A bar that is off at first and turns at each of these moments."""
    return Bar(name, "", (Stretch(0, "", False), *(Stretch(at, "", n % 2 == 0) for n, at in enumerate(changes))))


DAY = bars(
    [0, 10, 13, 40],
    60,
    BarGroup("hands", (onoff("door", 1, 3), Bar("key", "", (Stretch(0, "off", None), Stretch(2, "run", None))))),
    BarGroup("timers", (Bar("prime", "", (Stretch(0, "", False), Stretch(1, "3 s", True), Stretch(2, "", False))),)),
)


def test_to_scale() -> None:
    """Sixty seconds over sixty columns; times end above their ticks."""
    assert text(*draw(DAY, 78, ascii_only=False)) == [
        "                           13 s",
        "          at first      10 s  │                       40 s                60 s",
        "                 ┴─────────┴──┴──────────────────────────┴───────────────────┴",
        "  hands   door   ──────────██████████████████████████████────────────────────",
        "          key    ├off─────────├run───────────────────────────────────────────",
        "  timers  prime  ──────────███───────────────────────────────────────────────",
        "  ██ on (live, closed), ── off (dead, open).",
    ]


def test_in_ascii() -> None:
    """The same with what every stream can take."""
    assert text(*draw(DAY, 78, ascii_only=True))[2:] == [
        "                 +---------+--+--------------------------+-------------------+",
        "  hands   door   ----------##############################--------------------",
        "          key    |off---------|run-------------------------------------------",
        "  timers  prime  ----------###-----------------------------------------------",
        "  ## on (live, closed), -- off (dead, open).",
    ]


def test_short_stretches_are_drawn_longer() -> None:
    """Where a tenth of a second stands beside an hour time is not to scale, and that is said; a timer says how long it
    runs if that fits into its bar.
    """
    hour = Bar("rest", "", (Stretch(0, "", False), Stretch(2, "59 min 50 s", True), Stretch(3, "", False)))
    drawing = bars([0, Fraction(1, 10), 10, 3600], 3600, BarGroup("timers", (onoff("door", 1, 3), hour)))
    assert text(*draw(drawing, 50, ascii_only=True)) == [
        "                1/10 s",
        "         at first    |       10 s          3600 s",
        "                +----+----------+---------------+-",
        "  timers  door  -----###########################-",
        "          rest  ----------------# 59 min 50 s ##-",
        "  ## on (live, closed), -- off (dead, open).",
        "  Time is not to scale.",
    ]


def test_what_does_not_fit_goes_on_below() -> None:
    """In pieces, each with the bars that change in it; what never changes stands in the first."""
    still = Bar("lever", "", (Stretch(0, "park", None),))
    drawing = bars([0, 10, 13, 40], 60, BarGroup("hands", (still, *DAY.groups[0].bars)))
    assert text(*draw(drawing, 24, ascii_only=True)) == [
        "                  10 s",
        "         at first    |",
        "                +----+--",
        "  hands  lever  |park--",
        "         door   -----##",
        "",
        "                 40 s",
        "             13 s   60 s",
        "                +---+--+",
        "  hands  door   ####---",
        "         key    |run---",
        "  ## on (live, closed),",
        "  -- off (dead, open).",
    ]


LEVELS = st.sampled_from((("", False), ("", True), ("off", None), ("a long word", None)))


@st.composite
def drawings(draw_: st.DrawFn) -> Bars:
    """Up to nine moments, some very close and some far apart, and up to four bars of any kind."""
    lengths = draw_(st.lists(st.sampled_from((Fraction(1, 1000), 1, 7, 3600)), min_size=1, max_size=9))
    times = [sum(lengths[:at], Fraction(0)) for at in range(len(lengths))]
    end = times[-1] + draw_(st.sampled_from((0, lengths[-1])))
    rows = []
    for number in range(draw_(st.integers(1, 4))):
        begins = [0, *sorted(draw_(st.sets(st.integers(1, 8)).map(lambda at: {a for a in at if a < len(lengths)})))]
        stretches = tuple(Stretch(begin, *draw_(LEVELS)) for begin in begins)
        rows.append(Bar(f"bar{number}", "", stretches))
    return bars(times, end, BarGroup("hands", tuple(rows)))


@settings(deadline=None, max_examples=300)
@given(drawings(), st.one_of(st.none(), st.integers(34, 120)))
def test_read_back(drawing: Bars, width: int | None) -> None:
    """At every width: all times are there, no line is too wide, and above each tick stands what the signal then reads."""
    lines = text(*draw(drawing, width, ascii_only=False))
    above = "".join(line for line in lines if FULL.tick not in line)
    assert all(title in above for title in drawing.titles)
    if width is not None:
        assert max(map(columns_of, lines)) <= width
    moment = 0
    for line in lines:
        if FULL.tick in line:
            columns = [at for at, mark in enumerate(line) if mark == FULL.tick]
            first, moment = moment, min(moment + len(columns), len(drawing.moments))
        elif line.strip().removeprefix("hands").strip().startswith("bar"):
            name = line.removeprefix("  hands").split()[0]
            bar = next(bar for bar in drawing.groups[0].bars if bar.name == name)
            for at in range(first, moment):
                stretch = [each for each in bar.stretches if each.begin <= at][-1]
                begins = stretch.begin == at or at == first
                seen = line[columns[at - first] :]
                match stretch.raised:
                    case None if begins:
                        assert seen.startswith(FULL.begin + stretch.text)
                    case None:
                        pass
                    case raised:
                        assert seen.startswith(FULL.on if raised else FULL.off)
    assert moment == len(drawing.moments)
