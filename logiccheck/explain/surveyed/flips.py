"""Outputs and relays that flip by themselves: three changes, each within 100 ms of the one before, and no hand moves.

Looked at is what at least one timer can move that takes less than 200 ms. Slower ones fall due once among three such
changes at most, so that three of them would have to coincide: that happens once, and is no flicker.
"""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.explain.surveyed.steady import steady
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.explain.surveyed.waking import moves
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    Bistable,
    Edge,
    Expr,
    Not,
    Or,
    Output,
    Program,
    Relay,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.walk import windows_of
from logiccheck.model.story import Story

FLIP = 100_000  # microseconds: flips that are so far apart are not fast
FAST = Window(FLIP - 1, FLIP - 1, FLIP - 1)  # what has lasted for longer is not fast; just as long as a flip is not


def flickering(program: Program, survey: Survey) -> Iterator[tuple[Output | Relay, str, Story | None]]:
    """Each output and relay that can do so, what it is, and the shortest story; of a relay whose coil names one of
    these, or that is moved by its wire, nothing more is said."""
    told: set[tuple[str, str]] = set()
    names = Names(program)
    items: list[Output | Relay] = [*(program.box.outputs if program.box is not None else ()), *program.relays]
    fast_ones = [(item, kind) for item in items if _moved_fast(names, Signal(kind := _kind(item), item.name))]
    still = {name for each in (steady(survey) if fast_ones else ()) for name in each.names}
    for item, kind in fast_ones:
        on = Signal(kind, item.name)
        if item.name in still or told & names.matter([on]).items:
            continue
        fast = flips(program, on)
        if survey.danger(fast):
            told.add((kind.value, item.name))
            yield item, kind.value, survey.story(fast)


def _kind(item: Output | Relay) -> SignalKind:
    return SignalKind.OUTPUT if isinstance(item, Output) else SignalKind.RELAY


def flips(program: Program, on: Expr) -> Expr:
    """It is the third of three fast changes of which no hand made any."""
    return Or((_third(program, on, on, "on"), _third(program, on, Not(on), "off")))


def _third(program: Program, signal: Expr, on: Expr, part: str) -> Expr:
    """It comes on, after it came on and went off again, all fast; `part` tells its memory from that of the other.

    What a hand moves at the same moment resets, and reset wins: then nothing counts that was so before.
    """
    hands = Names(program).world([signal])
    over = Or((moves(program, hands, f"first, {part}"), _lasts(on, f"stays, {part}")))
    once = Bistable(Edge(True, on, f"comes, {part}"), over, False, False, f"once, {part}")
    gone = Or((moves(program, hands, f"then, {part}"), _lasts(Not(on), f"stays away, {part}")))
    fell = And((Edge(False, on, f"goes, {part}"), once))
    twice = Bistable(fell, gone, False, False, f"twice, {part}")
    return And((Edge(True, on, f"comes again, {part}"), twice))


def _lasts(x: Expr, key: str) -> Timer:
    return Timer(TimerKind.ON_DELAY, x, FAST, key)


def _moved_fast(names: Names, on: Signal) -> bool:
    """Some timer that can matter to it is fast."""
    written = [expr for item in names.matter([on]).items for expr in names.expressions(item)]
    return any(window.lo < 2 * FLIP for window in windows_of(written).values())
