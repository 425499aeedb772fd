"""Every small edit of the lines of a vehicle, of the kinds that slip in unseen; where nothing has to have gone wrong.

One edit changes one thing: a word, a time, a line. Which of them matter is not asked here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from enum import Enum
from itertools import pairwise

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.blame import Item
from logiccheck.explain.copper import reworded
from logiccheck.explain.edit import Change, Edit, EditKind
from logiccheck.explain.guarding.times import Time, time_in
from logiccheck.explain.site import Site
from logiccheck.explain.spots import Spot
from logiccheck.explain.terms import (
    Place,
    dropped,
    inverted,
    other_side_wins,
    plucked,
    retained_or_not,
    two_thresholds,
)
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Compare,
    Const,
    Expr,
    Ground,
    Impulse,
    Not,
    Or,
    Position,
    Program,
    Source,
    Timer,
    TimerKind,
    Window,
    WireSense,
    Xor,
)
from logiccheck.lang.walk import children, condition_of


class Does(Enum):
    """What a small edit does."""

    DROPS = "a term dropped"
    WORD = "`or` for `and`, or the other way"
    INVERTS = "a term or a sense inverted"
    HALF = "a time halved"
    DOUBLE = "a time doubled"
    NO_TIME = "a timer, a filter or a delay removed"
    WINS = "the other side wins"
    PLAIN = "a stored state made plain"
    FORGETS = "`retained` dropped"
    DIODE = "a diode removed"


@frozen
class Small:
    """A small edit in the lines of `names`: of a diode or a contact its two ends, of all else itself."""

    does: Does
    edit: Edit
    names: tuple[str, ...]


@frozen
class _Line:
    """An expression of the vehicle, and whose it is."""

    expr: Expr
    names: tuple[str, ...]
    item: Item | None


def small_edits(program: Program, files: Mapping[str, str]) -> tuple[Small, ...]:
    """All of them, each once, in the order of the program; `files` are those that the user wrote."""
    each: dict[tuple[Change, ...], Small] = {}
    for small in _all(program, files):
        each.setdefault(small.edit.changes, small)  # what `otherwise` stands for is written with what it excludes
    return tuple(each.values())


def _all(program: Program, files: Mapping[str, str]) -> Iterator[Small]:
    site = Site(program, files, (), (), frozenset(), Names(program))
    for line in _lines(program):
        for place in _places(site, line):
            yield from _inside(site, line, place)
    for contact in program.contacts:
        yield from _always_closed(site, contact.condition, (contact.left, contact.right))
    for source in _ends(program):
        yield from _always_closed(site, source.condition, (source.name,))
    yield from _copper(site)
    yield from _box(site)


def _ends(program: Program) -> tuple[Source | Ground, ...]:
    return (*program.sources, *program.grounds)


def _lines(program: Program) -> Iterator[_Line]:
    for source in _ends(program):
        yield _Line(source.condition, (source.name,), None)
    for contact in program.contacts:
        yield _Line(contact.condition, (contact.left, contact.right), None)
    for relay in program.relays:
        yield _Line(relay.coil, (relay.name,), relay)
    for rule in program.box.rules if program.box is not None else ():
        yield _Line(condition_of(rule), (rule.name,), rule)


def _places(site: Site, line: _Line) -> Iterator[Place]:
    """Every part of the line that is written, the widest first."""

    def walk(expr: Expr, parent: Expr | None) -> Iterator[Place]:
        if site.is_written(expr.span):
            yield Place(Spot(expr, isinstance(parent, And), parent, stored=True), line.item)
        if _is_filtered(expr) or (isinstance(expr, Bistable) and two_thresholds(site, expr)):
            return  # written as one comparison
        for child in children(expr):
            yield from walk(child, expr)

    return walk(line.expr, None)


def _is_filtered(expr: Expr) -> bool:
    return isinstance(expr, Timer) and expr.kind is TimerKind.FILTER


def _inside(site: Site, line: _Line, place: Place) -> Iterator[Small]:
    """The edits of one part of a line."""
    kinds = (
        (Does.DROPS, dropped(site, place)),
        (Does.DROPS, _position_less(site, place.spot.expr)),
        (Does.DROPS, _no_reset(site, place.spot.expr)),
        (Does.WORD, _words(site, place.spot.expr)),
        (Does.INVERTS, _inverted(site, place)),
        (Does.WINS, other_side_wins(site, place)),
        (Does.PLAIN, _plain(site, place)),
        (Does.FORGETS, _forgets(site, place)),
        (Does.NO_TIME, _no_timer(site, place)),
    )
    for does, edits in kinds:
        yield from (Small(does, edit, line.names) for edit in edits)
    yield from _timed(site, line, place.spot.expr)


# ------------------------------------------------------------------------------------------------------------- terms


def _position_less(site: Site, expr: Expr) -> Iterator[Edit]:
    """One of the positions in braces taken out."""
    if not isinstance(expr, Position):
        return
    found = re.search(r"\{([^}]*)\}", site.text(expr.span))
    parts = [part.strip() for part in found[1].split(",")] if found else []
    if found is None or len(parts) < 2:
        return
    span = Span(expr.span.file, expr.span.begin + found.start(1), expr.span.begin + found.end(1))
    for at in range(len(parts)):
        yield Edit(EditKind.DROP, (Change(span, ", ".join(parts[:at] + parts[at + 1 :])),))


def _no_reset(site: Site, expr: Expr) -> Iterator[Edit]:
    """What nothing resets any more."""
    if not isinstance(expr, Bistable | Impulse) or isinstance(expr.reset, Const) or not site.is_written(expr.span):
        return
    if isinstance(expr, Bistable) and two_thresholds(site, expr):
        return
    first = expr.set if isinstance(expr, Bistable) else expr.x
    begin, end = site.outer(first.span).end, site.outer(expr.reset.span).end
    yield Edit(EditKind.DROP, (plucked(expr.span.file, begin, end),))


def _words(site: Site, expr: Expr) -> Iterator[Edit]:
    """Each `and` an `or`, each `or` an `and`, one at a time; what the words tie together follows from that."""
    if not isinstance(expr, And | Or) or not all(site.is_written(part.span) for part in expr.parts):
        return
    old, new = ("and", "or") if isinstance(expr, And) else ("or", "and")
    spans = [site.outer(part.span) for part in expr.parts]
    for left, right in pairwise(spans):
        gap = Span(left.file, left.end, right.begin)
        yield from reworded(site, gap, rf"\b({old})\b", new, EditKind.BRACKETS)


def _inverted(site: Site, place: Place) -> Iterator[Edit]:
    spot = place.spot
    span = site.outer(spot.expr.span)
    if isinstance(spot.expr, Not):
        if isinstance(spot.expr.x, And | Or | Xor):  # of all else the term itself is inverted
            inner = site.outer(spot.expr.x.span)
            yield Edit(EditKind.INVERT, (plucked(span.file, spot.expr.span.begin, inner.begin),))
    elif isinstance(spot.expr, Compare) or _is_filtered(spot.expr):
        if isinstance(spot.parent, Not):
            yield Edit(EditKind.INVERT, (plucked(span.file, spot.parent.span.begin, span.begin),))
        else:
            yield Edit(EditKind.INVERT, (Change(Span(span.file, span.begin, span.begin), "not "),))
    else:
        yield from inverted(site, place)


# ------------------------------------------------------------------------------------------------- timers and states


def _alone(site: Site, place: Place, inner: Expr) -> Edit:
    """A part of the expression in place of all of it."""
    text = site.text(inner.span)
    loose = isinstance(inner, And | Or | Xor) and place.spot.parent is not None
    return Edit(EditKind.MEMORY, (Change(place.spot.expr.span, f"({text})" if loose else text),))


def _plain(site: Site, place: Place) -> Iterator[Edit]:
    """What sets it, and nothing stored; the first of two thresholds alone."""
    expr = place.spot.expr
    if isinstance(expr, Bistable) and two_thresholds(site, expr):
        yield Edit(EditKind.THRESHOLD, (plucked(expr.span.file, expr.set.span.end, expr.span.end),))
    elif isinstance(expr, Bistable):
        yield _alone(site, place, expr.set)
    elif isinstance(expr, Impulse):
        yield _alone(site, place, expr.x)


def _forgets(site: Site, place: Place) -> Iterator[Edit]:
    expr = place.spot.expr
    if isinstance(expr, Bistable | Impulse) and expr.retained:
        yield from retained_or_not(site, place)


def _no_timer(site: Site, place: Place) -> Iterator[Edit]:
    expr = place.spot.expr
    if isinstance(expr, Blink) or (isinstance(expr, Timer) and not _is_filtered(expr)):
        yield _alone(site, place, expr.x)


def _timed(site: Site, line: _Line, expr: Expr) -> Iterator[Small]:
    """Half and twice each time in a timer."""
    if isinstance(expr, Timer) and not _is_filtered(expr):
        begin = site.outer(expr.x.span).end
        span = Span(expr.span.file, begin, expr.span.end - 1)
        yield from _scaled(line.names, time_in(site, span, r"^\s*,\s*", expr.window))
    elif isinstance(expr, Blink):
        span = Span(expr.span.file, site.outer(expr.x.span).end, expr.span.end - 1)
        yield from _scaled(line.names, time_in(site, span, r"^\s*,\s*on\s+", expr.on))
        yield from _scaled(line.names, time_in(site, span, r",\s*off\s+", expr.off))


def _scaled(names: tuple[str, ...], found: Time | None) -> Iterator[Small]:
    if found is not None:
        half, double = found.changes
        yield Small(Does.HALF, Edit(EditKind.DURATION, (half,)), names)
        yield Small(Does.DOUBLE, Edit(EditKind.DURATION, (double,)), names)


# ------------------------------------------------------------------------------------------------- copper and the box


def _always_closed(site: Site, condition: Expr, names: tuple[str, ...]) -> Iterator[Small]:
    """A `when` dropped with all its terms."""
    if isinstance(condition, Const) or not site.is_written(condition.span):
        return
    span = site.outer(condition.span)
    found = re.search(r"\s+when\s+$", site.files[span.file][: span.begin])
    if found is not None:
        yield Small(Does.DROPS, Edit(EditKind.DROP, (plucked(span.file, found.start(), span.end),)), names)


def _copper(site: Site) -> Iterator[Small]:
    """Diodes that are not there, or plain wire; relays supplied always."""
    for diode in site.program.diodes:
        if site.is_written(diode.span):
            for text in ("", f"join {diode.anode} with {diode.cathode}"):
                edit = Edit(EditKind.DIODE, (Change(diode.span, text),))
                yield Small(Does.DIODE, edit, (diode.anode, diode.cathode))
    for relay in site.program.relays:
        if relay.supply is not None and site.is_written(relay.span):
            yield from _without(site, relay, relay.coil, r"supply\s+\w+")


def _without(site: Site, item: Item, behind: Expr, words: str) -> Iterator[Small]:
    """What feeds it, taken out of its line."""
    span = item.span
    text = site.files[span.file]
    begin = site.outer(behind.span).end if site.is_written(behind.span) else span.begin
    found = re.compile(rf"\s+{words}\b").search(text, begin, span.end)
    if found is not None:
        yield Small(Does.DROPS, Edit(EditKind.DROP, (plucked(span.file, *found.span()),)), (item.name,))


def _box(site: Site) -> Iterator[Small]:
    """Senses that take live for grounded; outputs always fed; filters and the delay of the start."""
    box = site.program.box
    if box is None:
        return
    for sense in box.senses:
        if not site.is_written(sense.span):
            continue
        if isinstance(sense, WireSense):
            other = "live" if sense.grounded else "grounded"
            pattern = rf"\bfrom\s+{re.escape(sense.wire)}\s+(live|grounded)\b"
            edits = reworded(site, sense.span, pattern, other)
            yield from (Small(Does.INVERTS, edit, (sense.name,)) for edit in edits)
        window = sense.filter.window if isinstance(sense.filter, Timer) else sense.filter
        if window is not None:
            yield from _waiting(site, sense.span, r"\s*\bfilter\s+", window, (sense.name,))
    for output in box.outputs:
        if output.fed_by is not None and site.is_written(output.span):
            yield from _without(site, output, output.command, r"fed\s+by\s+\w+")
    if box.startup is not None and site.is_written(box.span):
        yield from _waiting(site, box.span, r"\s*\bafter\s+", box.startup.window, ("powered",))


def _waiting(site: Site, span: Span, lead: str, window: Window, names: tuple[str, ...]) -> Iterator[Small]:
    """Half the time behind `lead`, twice that, and none."""
    found = time_in(site, span, lead, window)
    if found is not None:
        yield from _scaled(names, found)
        yield Small(Does.NO_TIME, Edit(EditKind.DROP, (plucked(span.file, found.begin, found.at.end),)), names)
