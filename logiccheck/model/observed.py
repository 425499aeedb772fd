"""The truth of any expression over a whole timeline, with the memory that is written inside it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from typing import assert_never

from logiccheck.lang.program import Bistable, Blink, Edge, Expr, Impulse, Previous, Timer, TimerKind, Window
from logiccheck.model.interpreter import Impossible
from logiccheck.model.memory import Time
from logiccheck.model.signals import (
    Instant,
    Lasting,
    Steps,
    bistable,
    blink,
    edge,
    impulse,
    off_delay,
    on_delay,
    one_shot,
    previous,
    steps,
)
from logiccheck.model.timeline import Timeline
from logiccheck.model.truth import Leaf, Node, is_filter, operands, truth


def signal(timeline: Timeline, expr: Expr) -> Steps:
    """The settled truth of `expr` from time 0 to the end of the timeline.

    Nodes in it that remember are the observer's own, save the filters, which are the box's. A timer with tolerance
    lasts as the timeline says it was chosen, else its nominal time; `Impossible` if that is outside its window.
    """
    marks = [played.time for played in timeline.settled]
    own = {node.key: _node(timeline, node) for node in _outermost(expr)}
    if not own:  # what the observer need not remember is the same just after a moment
        settled = tuple(played.moment.settled.holds(expr) for played in timeline.settled)
        return Steps(tuple(marks), settled, settled)

    def value(instant: Instant) -> bool:
        played = timeline.settled[bisect_right(marks, instant.time) - 1]

        def leaf(part: Leaf) -> bool:
            if isinstance(part, Node) and part.key in own:
                return own[part.key].value(instant)
            return played.moment.settled.holds(part)

        return truth(expr, leaf)

    return steps([*marks, *(mark for each in own.values() for mark in each.marks)], value)


def _outermost(expr: Expr) -> Iterator[Node]:
    """The observer's nodes that are inside no other node."""
    if isinstance(expr, Node):
        if not is_filter(expr):
            yield expr
    else:
        for part in operands(expr):
            yield from _outermost(part)


def _node(timeline: Timeline, node: Node) -> Steps:
    match node:
        case Timer(x=x):
            return _timer(timeline, node, signal(timeline, x))
        case Blink(x=x, key=key):
            on, off = _lasting(timeline, key + ".on", node.on), _lasting(timeline, key + ".off", node.off)
            return blink(signal(timeline, x), on, off, timeline.end)
        case Bistable():
            return bistable(signal(timeline, node.set), signal(timeline, node.reset), node.set_wins)
        case Impulse(x=x, reset=reset):
            return impulse(signal(timeline, x), signal(timeline, reset))
        case Edge(x=x, rising=rising):
            return edge(signal(timeline, x), rising)
        case Previous(x=x):
            return previous(signal(timeline, x))
        case _:
            assert_never(node)


def _timer(timeline: Timeline, timer: Timer, x: Steps) -> Steps:
    lasts = _lasting(timeline, timer.key, timer.window)
    match timer.kind:
        case TimerKind.ON_DELAY:
            return on_delay(x, lasts, timeline.end)
        case TimerKind.OFF_DELAY:
            return off_delay(x, lasts, timeline.end)
        case TimerKind.ONE_SHOT:
            return one_shot(x, lasts, timeline.end)
        case TimerKind.FILTER:
            raise AssertionError(timer)  # a filter is never an observer's
        case _:
            assert_never(timer.kind)


def _lasting(timeline: Timeline, key: str, window: Window) -> Lasting:
    def lasts(start: Time) -> Time:
        chosen = timeline.durations.get((key, start), window.nominal)
        if not window.lo <= chosen <= window.hi:
            raise Impossible(f"{key} cannot last {chosen} us: only {window.lo} .. {window.hi} us")
        return chosen

    return lasts
