"""The places inside an expression at which a change could turn the whole: what is there, and what it should be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    Xor,
)
from logiccheck.model.reaction import Values

CALLS = ("on_delay", "off_delay", "one_shot", "blink", "bistable", "impulse_relay", "rises", "falls", "previous", "of")


@frozen
class Spot:
    """`expr` stands in `parent` (None: it is all of a line), and being `want` it would help.

    `stored`: through a timer or a stored state, so that not only what it is at the end of a story counts.
    """

    expr: Expr
    want: bool
    parent: Expr | None
    stored: bool


def spots(expr: Expr, want: bool, end: Values) -> Iterator[Spot]:
    """Every place in a line that should be `want` and is not, the widest first; `end` is how the story ends."""
    yield from _spots(Spot(expr, want, None, stored=False), end)


def _spots(spot: Spot, end: Values) -> Iterator[Spot]:
    if spot.expr.span != NOWHERE:
        yield spot
    for inner in _inner(spot, end):
        yield from _spots(inner, end)


def _inner(spot: Spot, end: Values) -> Iterator[Spot]:
    expr, want, stored = spot.expr, spot.want, spot.stored
    match expr:
        case Const() | Signal() | Position() | Compare():
            return
        case Not(x=x):
            yield Spot(x, not want, expr, stored)
        case And(parts=parts) | Or(parts=parts):
            yield from (Spot(part, want, expr, stored) for part in parts if stored or end.holds(part) != want)
        case Xor(left=left, right=right):
            for part in (left, right):
                yield from (Spot(part, value, expr, stored) for value in (False, True))
        case AtMostOne(parts=parts):
            yield from (Spot(part, not want, expr, stored) for part in parts)
        case Timer(x=x) | Blink(x=x) | Previous(x=x):
            yield Spot(x, want, expr, True)
        case Edge(x=x, rising=rising):
            yield Spot(x, want == rising, expr, True)
        case Bistable(set=set_, reset=reset):
            yield Spot(set_, want, expr, True)
            yield Spot(reset, not want, expr, True)
        case Impulse(x=x, reset=reset):
            yield Spot(x, want, expr, True)
            yield Spot(reset, not want, expr, True)
        case _:
            assert_never(expr)


def with_brackets(span: Span, text: str) -> Span:
    """What is written in the span with all the brackets around it that belong to nothing else."""
    while True:
        before, after = text[: span.begin].rstrip(), text[span.end :]
        gap = len(after) - len(after.lstrip())
        if not before.endswith("(") or not after[gap:].startswith(")") or _is_call(before[:-1]):
            return span
        span = Span(span.file, len(before) - 1, span.end + gap + 1)


def _is_call(before: str) -> bool:
    words = before.split()[-1:]
    return bool(words) and any(words[0] == call or words[0].endswith((f"({call}", f",{call}")) for call in CALLS)


def with_another(expr: Expr, old: Expr, new: Expr) -> Expr:
    """The expression with that very part of it (not what equals it) replaced."""
    if expr is old:
        return new

    def within(x: Expr) -> Expr:
        return with_another(x, old, new)

    match expr:
        case Const() | Signal() | Position() | Compare():
            return expr
        case Not() | Timer() | Blink() | Edge() | Previous():
            return replace(expr, x=within(expr.x))
        case And() | Or() | AtMostOne():
            return replace(expr, parts=tuple(within(part) for part in expr.parts))
        case Xor():
            return replace(expr, left=within(expr.left), right=within(expr.right))
        case Bistable():
            return replace(expr, set=within(expr.set), reset=within(expr.reset))
        case Impulse():
            return replace(expr, x=within(expr.x), reset=within(expr.reset))
        case _:
            assert_never(expr)


def unlike(spot: Spot, story: Sequence[Values]) -> list[Values]:
    """The situations of the story in which the spot is not as it should be, and in which a change would count."""
    frames = story if spot.stored else story[-1:]
    return [values for values in frames if values.holds(spot.expr) != spot.want]
