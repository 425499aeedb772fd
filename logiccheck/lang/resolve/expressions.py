"""Expressions as written become resolved expressions: names bound, quantities exact, memory with its keys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.base.units import said_quantity
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.durations import PreviousInTimer
from logiccheck.lang.mistakes.parts import RetainedInCoil, SaidTwice
from logiccheck.lang.mistakes.places import BecomesHere, EdgeInTimer
from logiccheck.lang.mistakes.quantities import CrossedThresholds
from logiccheck.lang.resolve import values
from logiccheck.lang.resolve.amounts import window
from logiccheck.lang.resolve.places import OBSERVERS, Place, memory_breach
from logiccheck.lang.resolve.scope import Keys, Scope
from logiccheck.lang.walk import children

_TIMERS = {
    "on_delay": p.TimerKind.ON_DELAY,
    "off_delay": p.TimerKind.OFF_DELAY,
    "one_shot": p.TimerKind.ONE_SHOT,
}


@frozen
class Site:
    """Where an expression stands: its scope, the rules of its place, and the keys of the item that holds it."""

    scope: Scope
    place: Place
    keys: Keys


def resolve(site: Site, expr: w.Expr) -> p.Expr | None:
    """The resolved expression; None, and told, if there is a mistake in it. All its mistakes are told."""
    match expr:
        case w.Bare(name, span):
            return values.bare(site.scope, name, site.place, span)
        case w.Truth(value, span):
            return p.Const(value, span)
        case w.Is() | w.In() | w.Becomes() | w.Held() | w.Thresholds():
            return _about_a_name(site, expr)
        case w.Negation(x, span):
            inner = resolve(site, x)
            return None if inner is None else p.Not(inner, span)
        case w.Chain():
            return _chain(site, expr)
        case w.Timed() | w.Blink() | w.Stored() | w.Edge() | w.Previous():
            return _memory(site, expr)
    assert_never(expr)


def _about_a_name(site: Site, expr: w.Is | w.In | w.Becomes | w.Held | w.Thresholds) -> p.Expr | None:
    """Anything that says something of one name."""
    scope, place = site.scope, site.place
    match expr:
        case w.Is(name, value, negated, span):
            return values.equals(scope, name, value, negated, place, span)
        case w.In(name, several, span):
            return values.one_of(scope, name, several, place, span)
        case w.Becomes():
            return _becomes(site, expr)
        case w.Held(name, word, amount, span):
            return values.held(scope, name, values.OPS[word], amount, place, span)
        case w.Thresholds():
            return _thresholds(site, expr)
    assert_never(expr)


def _becomes(site: Site, expr: w.Becomes) -> p.Expr | None:
    if site.place is not Place.REQUIREMENT:
        value = expr.value.text if isinstance(expr.value, w.Name) else "..."
        site.scope.tell(memory_breach(site.place, "becomes") or BecomesHere(expr.name.text, value), expr.span)
        return None
    key = site.keys.next()
    equal = values.equals(site.scope, expr.name, expr.value, False, site.place, expr.span)
    return None if equal is None else p.Edge(True, equal, key, expr.span)


def _thresholds(site: Site, expr: w.Thresholds) -> p.Expr | None:
    if not _may_remember(site, "until", expr.span):
        return None
    key = site.keys.next()
    first, second = (p.Op.GT, p.Op.LT) if expr.rising else (p.Op.LT, p.Op.GT)
    begin_span = Span(expr.span.file, expr.span.begin, expr.begin.span.end)
    set_ = values.held(site.scope, expr.name, first, expr.begin, site.place, begin_span)
    reset = values.held(site.scope, expr.name, second, expr.end, site.place, expr.until) if set_ else None
    if set_ is None or reset is None:
        return None
    begin, end = _bound(set_), _bound(reset)
    if not (end <= begin if expr.rising else begin <= end):
        unit = site.scope.gauges[expr.name.text].high.unit.name
        crossed = CrossedThresholds(expr.rising, said_quantity(begin, unit), said_quantity(end, unit))
        site.scope.tell(crossed, expr.begin.span, expr.end.span)
        return None
    return p.Bistable(set_, reset, set_wins=False, retained=False, key=key, span=expr.span)


def _bound(comparison: p.Expr) -> Fraction:
    inner = comparison.x if isinstance(comparison, p.Timer) else comparison
    assert isinstance(inner, p.Compare)
    return inner.bound


def _chain(site: Site, expr: w.Chain) -> p.Expr | None:
    parts = _all(site, expr.parts)
    if parts is None:
        return None
    match expr.word:
        case "and":
            return p.And(parts, expr.span)
        case "or":
            return p.Or(parts, expr.span)
        case "at most one":
            return p.AtMostOne(parts, expr.span)
        case _:
            return p.Xor(parts[0], parts[1], expr.span)


def _all(site: Site, parts: Iterable[w.Expr]) -> tuple[p.Expr, ...] | None:
    """All parts resolved; None if there is a mistake in any, and all are told."""
    resolved = [resolve(site, part) for part in parts]
    known = tuple(part for part in resolved if part is not None)
    return known if len(known) == len(resolved) else None


# ---------------------------------------------------------------------------------------------------------- memory


def _may_remember(site: Site, what: str, span: Span) -> bool:
    """Whether a timer, edge or stored state may stand here; told if not."""
    message = memory_breach(site.place, what)
    if message is not None:
        site.scope.tell(message, span)
    return message is None


def _memory(site: Site, expr: w.Timed | w.Blink | w.Stored | w.Edge | w.Previous) -> p.Expr | None:
    word = _word(expr)
    if not _may_remember(site, word, expr.span):
        return None
    key = site.keys.next()  # before the operands get theirs: the outermost has the plain name
    x = resolve(site, expr.x)
    if x is not None and not isinstance(expr, w.Previous) and not (isinstance(expr, w.Stored) and word == "bistable"):
        tell_edges(site, x, f"`{word}`")
    if x is not None and isinstance(expr, w.Timed | w.Blink):
        tell_previous(site, x, f"`{word}`")
    match expr:
        case w.Timed(_, _, time, span):
            due = window(site.scope, time)
            return None if x is None or due is None else p.Timer(_TIMERS[word], x, due, key, span)
        case w.Blink(_, on, off, span):
            on_time, off_time = window(site.scope, on), window(site.scope, off)
            return None if x is None or not on_time or not off_time else p.Blink(x, on_time, off_time, key, span)
        case w.Stored():
            return _stored(site, expr, x, key)
        case w.Edge(rising, _, span):
            return None if x is None else p.Edge(rising, x, key, span)
        case w.Previous(_, span):
            return None if x is None else p.Previous(x, key, span)
    assert_never(expr)


def _word(expr: w.Timed | w.Blink | w.Stored | w.Edge | w.Previous) -> str:
    match expr:
        case w.Timed(word) | w.Stored(word):
            return word
        case w.Blink():
            return "blink"
        case w.Edge(rising):
            return "rises" if rising else "falls"
        case w.Previous():
            return "previous"
    assert_never(expr)


def _stored(site: Site, expr: w.Stored, x: p.Expr | None, key: str) -> p.Expr | None:
    """A bistable or an impulse relay."""
    resets = [part for part in expr.parts if isinstance(part, w.Reset)]
    options = [part for part in expr.parts if isinstance(part, w.Option)]
    said: set[str] = set()
    for part in expr.parts:
        word = "reset" if isinstance(part, w.Reset) else "wins" if part.word != "retained" else "retained"
        if word in said:
            site.scope.tell(SaidTwice(word), part.span)
        said.add(word)
        if word == "retained" and site.place is Place.COIL:
            site.scope.tell(RetainedInCoil(), part.span)
    resolved = [resolve(site, part.x) for part in resets]
    reset = resolved[0] if resolved else p.Const(False)
    if x is None or reset is None:
        return None
    words = {option.word for option in options}
    if expr.word == "bistable":
        return p.Bistable(x, reset, "set wins" in words, "retained" in words, key, expr.span)
    return p.Impulse(x, reset, "retained" in words, key, expr.span)


def tell_edges(site: Site, x: p.Expr, what: str) -> bool:
    """Tells of each edge inside `x` that would be looked at over time; only where memory lives on settled values."""
    if site.place not in OBSERVERS:
        return False
    edges = list(_edges(x))
    for edge in edges:
        site.scope.tell(EdgeInTimer(what), edge.span)
    return bool(edges)


def tell_untimed(site: Site, x: p.Expr, what: str) -> bool:
    """Tells of all in `x` from which no time can count."""
    edges = tell_edges(site, x, what)
    return tell_previous(site, x, what) or edges


def tell_previous(site: Site, x: p.Expr, what: str) -> bool:
    """Tells of each `previous` inside `x` from which a time would count; only where memory lives on settled values."""
    if site.place not in OBSERVERS:
        return False
    found = list(_previous(x))
    for each in found:
        site.scope.tell(PreviousInTimer(what), each.span)
    return bool(found)


def _previous(x: p.Expr) -> Iterator[p.Previous]:
    """All that no other timer stands before."""
    todo = [x]
    while todo:
        match todo.pop():
            case p.Previous() as previous:
                yield previous
            case p.Timer() | p.Blink():
                pass
            case node:
                todo.extend(children(node))


def _edges(x: p.Expr) -> Iterator[p.Edge]:
    """The edges that make `x` true for no time: all that no stored state stands before."""
    todo = [x]
    while todo:
        match todo.pop():
            case p.Edge() as edge:
                yield edge
            case p.Timer() | p.Blink() | p.Bistable() | p.Impulse():
                pass
            case node:
                todo.extend(children(node))
