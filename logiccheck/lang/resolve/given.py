"""What is given: assumptions about the world that cut away stories."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.resolve.amounts import duration
from logiccheck.lang.resolve.expressions import Site, resolve, tell_untimed
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import WORLD, Keys, Kind, Scope

TextOf = Callable[[Span], str]


@frozen
class Assumptions:
    """`smooth` are the numbers that are without jumps."""

    givens: tuple[p.Given, ...]
    smooth: frozenset[str]


def given(scope: Scope, items: Iterable[tuple[w.Item, TextOf]]) -> Assumptions:
    """The assumptions among the items; each comes with what gives the text of its spans."""
    givens: list[p.Given] = []
    smooth: set[str] = set()
    texts: dict[str, int] = {}
    for item, text_of in items:
        if isinstance(item, w.GivenNoJumps):
            name = scope.want(item.name, {Kind.NUMBER}, "a number of the world")
            smooth |= {name} if name else set()
        elif isinstance(item, w.Given):
            text = text_of(item.span)
            texts[text] = texts.get(text, 0) + 1
            again = f" ({texts[text]})" if texts[text] > 1 else ""
            found = _given(scope, item, text, Keys(f"given {text}{again}"))
            givens += [found] if found is not None else []
    return Assumptions(tuple(givens), frozenset(smooth))


def _given(scope: Scope, item: w.Given, text: str, keys: Keys) -> p.Given | None:
    fact, assumed = Site(scope, Place.FACT, keys), Site(scope, Place.ASSUMED, keys)
    match item:
        case w.GivenNever():
            return _excluded(fact, item, text)
        case w.GivenLasts(written, at_least, time, span):
            x, t = resolve(fact, written), duration(scope, time)
            if x is None or t is None:
                return None
            return p.LastsAtLeast(x, t, text, span) if at_least else p.LastsAtMost(x, t, text, span)
        case w.GivenAfter(written, before, time, span):
            c, x, t = resolve(fact, written), resolve(assumed, before), duration(scope, time)
            if x is not None and tell_untimed(assumed, x, "`has lasted`"):
                return None
            return None if c is None or x is None or t is None else p.AfterLasting(c, x, t, text, span)
        case w.GivenChanges(name, written, span):
            variable, y = scope.want(name, WORLD, "a switch or a number of the world"), resolve(assumed, written)
            return None if variable is None or y is None else p.ChangesOnlyWhile(variable, y, text, span)
        case w.GivenNoJumps():
            return None
    assert_never(item)


def _excluded(site: Site, item: w.GivenNever, text: str) -> p.Given | None:
    """`never p while r` excludes p and r; `always p while r` excludes r and not p."""
    x = resolve(site, item.p)
    r = resolve(site, item.r) if item.r else None
    if x is None or (item.r and r is None):
        return None
    if item.always:
        x = p.Not(x)  # written nowhere, like the next one
    if r is not None:
        x = p.And((r, x) if item.always else (x, r))
    return p.Excluded(x, text, item.span)


def without_jumps(numbers: Iterable[p.Number], smooth: frozenset[str]) -> tuple[p.Number, ...]:
    """The numbers, each with what is given about its jumps."""
    return tuple(replace(number, jumps=number.name not in smooth) for number in numbers)
