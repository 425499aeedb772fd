"""Edits inside one line: one more condition, a term less, a term inverted, an edge for a state, who wins."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.blame import Item
from logiccheck.explain.edit import Change, Edit, EditKind
from logiccheck.explain.site import Site, line_of, with_line
from logiccheck.explain.spots import Spot, spots, unlike
from logiccheck.lang.program import (
    And,
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
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Timer,
    WireSense,
    Xor,
)
from logiccheck.lang.walk import children, condition_of, references, subexpressions


@frozen
class Place:
    """A spot in the line of an item; `item` None: in the condition of a contact."""

    spot: Spot
    item: Item | None


def places(site: Site) -> Iterator[Place]:
    """Every spot in the lines of rules, outputs and relays that are to blame."""
    for line in site.lines:
        expr = line_of(line.item) if line.item is not None else None
        if expr is not None:
            yield from (Place(spot, line.item) for spot in spots(expr, not line.on, site.end) if _written(site, spot))


def _written(site: Site, spot: Spot) -> bool:
    return site.is_written(spot.expr.span)


def inserted(span: Span, before: str, after: str) -> tuple[Change, ...]:
    """Something put before the span (unless it is empty), and something behind it."""
    begin, end = Span(span.file, span.begin, span.begin), Span(span.file, span.end, span.end)
    return (*((Change(begin, before),) if before else ()), Change(end, after))


def plucked(file: str, begin: int, end: int) -> Change:
    """What stands there taken out."""
    return Change(Span(file, begin, end), "")


# ---------------------------------------------------------------------------------------------- one more condition


def guarded(site: Site, place: Place) -> Iterator[Edit]:
    """`and X`, `and not X` where it should be off; `or X`, `or not X` where it should be on."""
    spot, item = place.spot, place.item
    same = And if not spot.want else Or
    if item is None or isinstance(spot.parent, same | Not | Edge | Previous) or isinstance(spot.expr, Const):
        return
    line = line_of(item)
    named = {*references(line)} if line is not None else set()
    wrong = unlike(spot, site.story)
    for term, text in _conditions(site, item):
        if term in named or not site.is_related(term):
            continue
        for negated in (False, True):
            if any((values.holds(term) != negated) == spot.want for values in wrong):
                yield _guarded(site, place, Not(term) if negated else term, f"not {text}" if negated else text)


def _guarded(site: Site, place: Place, term: Expr, text: str) -> Edit:
    spot, item = place.spot, place.item
    span = site.outer(spot.expr.span)
    inside = span != spot.expr.span
    if spot.want and inside:
        changes = inserted(spot.expr.span, "", f" or {text}")
    elif spot.want:
        tight = isinstance(spot.parent, And | Xor)
        changes = inserted(span, "(" if tight else "", f" or {text}{')' if tight else ''}")
    else:
        loose = isinstance(spot.expr, Or | Xor) and not inside
        changes = inserted(span, "(" if loose else "", f"{')' if loose else ''} and {text}")
    parts = (spot.expr, term)
    new = Or(parts) if spot.want else And(parts)
    if item is None or not _comes_before(site, item, term):
        return Edit(EditKind.GUARD, changes)
    return Edit(EditKind.GUARD, changes, turned(site, place, spot.expr, new))


def turned(site: Site, place: Place, old: Expr, new: Expr) -> Callable[[], Program] | None:
    """The program with a part of the line of the place replaced."""
    item = place.item
    return None if item is None else lambda: with_line(site.program, item, old, new)


def _comes_before(site: Site, item: Item, term: Expr) -> bool:
    """Whether the term is worked out before the line of the item; else the order of the rules has to be found anew."""
    box = site.program.box
    if isinstance(item, Relay) or box is None:
        return True
    order = [rule.name for rule in box.rules]
    later = set(order[order.index(item.name) :])
    return not any(leaf.name in later for leaf in references(term) if isinstance(leaf, Signal))


def _conditions(site: Site, item: Item) -> Iterator[tuple[Expr, str]]:
    """What may stand in the line of the item as a condition: senses, rules and comparisons of the box; wires and relay
    contacts for a coil. A rule that rests on the item itself may not."""
    if isinstance(item, Relay):
        for wire in site.program.wires:
            yield Signal(SignalKind.LIVE, wire.name), wire.name
        for relay in site.program.relays:
            if relay is not item:
                yield Signal(SignalKind.RELAY, relay.name), relay.name
    elif site.program.box is not None:
        for sense in site.program.box.senses:
            if isinstance(sense, WireSense):
                yield Signal(SignalKind.SENSE, sense.name), sense.name
        resting = _resting_on(site, item.name)
        for rule in site.program.box.rules:
            if isinstance(rule, Rule) and rule.name not in resting:
                yield Signal(SignalKind.RULE, rule.name), rule.name
        yield from _comparisons(site)


def _resting_on(site: Site, name: str) -> set[str]:
    """The rules and outputs that need this one, and itself."""
    found = {name}
    for rule in site.program.box.rules if site.program.box else ():  # in dependency order
        expr = condition_of(rule)
        if found & {leaf.name for leaf in references(expr) if isinstance(leaf, Signal)}:
            found.add(rule.name)
    return found


def _comparisons(site: Site) -> Iterator[tuple[Expr, str]]:
    """The comparisons that the box makes somewhere, as they are written there."""
    seen: set[Expr] = set()
    for rule in site.program.box.rules if site.program.box else ():
        for part in subexpressions(condition_of(rule)):
            whole = isinstance(part, Compare) and site.is_written(part.span) and _begins(site, part)
            if whole and part not in seen:
                seen.add(part)
                yield part, site.text(part.span)


def _begins(site: Site, part: Compare) -> bool:
    """A comparison with its name; the second of two thresholds has none."""
    return site.text(part.span).startswith(part.name)


# ---------------------------------------------------------------------------------------------- a term less, or not


def dropped(site: Site, place: Place) -> Iterator[Edit]:
    """The term taken out of the alternatives, or of the conditions, in which it stands."""
    spot, parent = place.spot, place.spot.parent
    if not isinstance(parent, Or if not spot.want else And) or not isinstance(parent, And | Or):
        return
    at = next(number for number, part in enumerate(parent.parts) if part is spot.expr)
    spans = [site.outer(part.span) for part in parent.parts if site.is_written(part.span)]
    if len(spans) < len(parent.parts):
        return
    file, whole = spans[0].file, site.outer(parent.span)
    if len(spans) == 2 and whole != parent.span:
        change = Change(whole, site.text(spans[1 - at]))
    elif at:
        change = plucked(file, spans[at - 1].end, spans[at].end)
    else:
        change = plucked(file, spans[0].begin, spans[1].begin)
    rest = replace(parent, parts=(*parent.parts[:at], *parent.parts[at + 1 :]))
    yield Edit(EditKind.DROP, (change,), turned(site, place, parent, rest))


def inverted(site: Site, place: Place) -> Iterator[Edit]:
    """`not` before the term, or no longer."""
    spot = place.spot
    if not isinstance(spot.expr, Signal | Position | Timer | Blink | Bistable | Impulse):
        return
    span = site.outer(spot.expr.span)
    after = turned(site, place, spot.expr, Not(spot.expr))
    if isinstance(spot.parent, Not) and site.is_written(spot.parent.span):
        yield Edit(EditKind.INVERT, (plucked(span.file, spot.parent.span.begin, span.begin),), after)
    else:
        yield Edit(EditKind.INVERT, (Change(Span(span.file, span.begin, span.begin), "not "),), after)


def bracketed(site: Site, place: Place) -> Iterator[Edit]:
    """`(a or b) and c` for `a or b and c`; `a and (b or c)` for `a and b or c`."""
    expr = place.spot.expr
    if not isinstance(expr, Or) or not all(site.is_written(part.span) for part in expr.parts):
        return
    first, last = expr.parts[0], expr.parts[-1]
    spans = [site.outer(part.span) for part in expr.parts]
    file = expr.span.file
    if isinstance(last, And) and spans[-1] == last.span:
        for at in range(1, len(last.parts)):
            stop = site.outer(last.parts[at - 1].span).end
            inner = Or((*expr.parts[:-1], _all(last.parts[:at])))
            after = turned(site, place, expr, And((inner, *last.parts[at:])))
            yield Edit(EditKind.BRACKETS, inserted(Span(file, spans[0].begin, stop), "(", ")"), after)
    if isinstance(first, And) and spans[0] == first.span:
        for at in range(1, len(first.parts)):
            start = site.outer(first.parts[at].span).begin
            inner = Or((_all(first.parts[at:]), *expr.parts[1:]))
            after = turned(site, place, expr, And((*first.parts[:at], inner)))
            yield Edit(EditKind.BRACKETS, inserted(Span(file, start, spans[-1].end), "(", ")"), after)


def _all(parts: tuple[Expr, ...]) -> Expr:
    return parts[0] if len(parts) == 1 else And(parts)


# ------------------------------------------------------------------------------------------------ edges and memory


def edges(site: Site, place: Place) -> Iterator[Edit]:
    """The state itself where an edge of it is looked at; an edge where a bistable is set or reset by a state."""
    spot = place.spot
    if isinstance(spot.expr, Edge) and site.is_written(spot.expr.x.span):
        inner = site.text(spot.expr.x.span)
        loose = isinstance(spot.expr.x, And | Or | Xor)
        state = f"({inner})" if loose else inner
        rising = spot.expr.rising
        itself = spot.expr.x if rising else Not(spot.expr.x)
        change = Change(spot.expr.span, state if rising else f"not {state}")
        yield Edit(EditKind.EDGE, (change,), turned(site, place, spot.expr, itself))
    elif isinstance(spot.parent, Bistable) and not two_thresholds(site, spot.parent):
        if any(isinstance(part, Edge) for part in subexpressions(spot.expr)):
            return  # an edge of an edge means nothing
        span = site.outer(spot.expr.span)
        text = site.text(span)
        around = text if span != spot.expr.span else f"({text})"
        yield Edit(EditKind.EDGE, (Change(span, f"rises{around}"),))


def two_thresholds(site: Site, expr: Bistable) -> bool:
    """Whether it is written as one threshold until another."""
    return not site.text(expr.span).startswith("bistable")


def remembered(site: Site, place: Place) -> Iterator[Edit]:
    """Set wins instead of reset, or the other way; what is stored is retained, or no longer; what a rule concludes is
    stored until the power goes."""
    expr = place.spot.expr
    if isinstance(place.item, Rule) and place.spot.parent is None and place.spot.want:
        span = site.outer(expr.span)
        yield Edit(EditKind.MEMORY, (Change(span, f"bistable(set {site.text(expr.span)})"),))
    yield from other_side_wins(site, place)
    if not isinstance(place.item, Relay):
        yield from retained_or_not(site, place)


def other_side_wins(site: Site, place: Place) -> Iterator[Edit]:
    """Set wins instead of reset, or the other way."""
    expr = place.spot.expr
    if isinstance(expr, Bistable) and not two_thresholds(site, expr) and not isinstance(expr.reset, Const):
        change = _with_word(site, expr, "set wins", expr.set_wins)
        other = replace(expr, set_wins=not expr.set_wins)
        yield Edit(EditKind.MEMORY, (change,), turned(site, place, expr, other))


def retained_or_not(site: Site, place: Place) -> Iterator[Edit]:
    """What is stored is retained, or no longer."""
    expr = place.spot.expr
    if isinstance(expr, Impulse) or (isinstance(expr, Bistable) and not two_thresholds(site, expr)):
        change = _with_word(site, expr, "retained", expr.retained)
        other = replace(expr, retained=not expr.retained)
        yield Edit(EditKind.MEMORY, (change,), turned(site, place, expr, other))


def _with_word(site: Site, expr: Bistable | Impulse, word: str, is_there: bool) -> Change:
    """The word put behind the operands of the expression, or taken from there."""
    tail = max((x.span.end for x in children(expr) if x.span != NOWHERE), default=expr.span.begin)
    text = site.files[expr.span.file]
    file, close = expr.span.file, expr.span.end - 1
    if not is_there:
        return Change(Span(file, close, close), f", {word}")
    found = re.compile(r",\s*" + r"\s+".join(word.split()) + r"\b").search(text, tail, close)
    begin, end = found.span() if found else (close, close)
    return plucked(file, begin, end)


def inner_edits(site: Site) -> Iterator[Edit]:
    """All edits of these kinds in the lines that are to blame."""
    for place in places(site):
        for kind in (guarded, dropped, inverted, edges, remembered, bracketed):
            yield from kind(site, place)
