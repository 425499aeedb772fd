"""Requirements: what must hold, with its form, its guard and its words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import assert_never

from logiccheck.base.place import source_text
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.resolve.amounts import duration
from logiccheck.lang.resolve.expressions import Site, resolve, tell_edges, tell_untimed
from logiccheck.lang.resolve.given import TextOf
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import Keys, Scope
from logiccheck.lang.resolve.world import label


def requirements(scope: Scope, items: Iterable[tuple[w.Item, TextOf]]) -> tuple[p.Requirement, ...]:
    """The requirements among the items that have no mistake; each comes with what gives the text of its spans."""
    found: list[p.Requirement] = []
    for item, text_of in items:
        if isinstance(item, w.Requirement):
            form = _form(scope, item)
            if form is not None:
                name, text = item.name.text, label(item.name, item.label)
                guard = p.Guard(item.guard)
                found.append(p.Requirement(name, text, guard, form, text_of(item.form.span), item.span))
    return tuple(found)


def waived(files: Sequence[w.File]) -> Iterator[p.Waived]:
    """The requirements that are not asked."""
    for file in files:
        for each in file.waived:
            item = each.requirement
            text, guard = source_text(item.form.span, file.text), p.Guard(item.guard)
            name, title = item.name.text, label(item.name, item.label)
            yield p.Waived(name, title, guard, text, each.waiver.reason.text.strip(), each.waiver.span)


def _form(scope: Scope, item: w.Requirement) -> p.Form | None:
    plain = isinstance(item.form, w.Never) and item.form.instant
    site = Site(scope, Place.INSTANT if plain else Place.REQUIREMENT, Keys(item.name.text))
    match item.form:
        case w.Never() as form:
            return _never(site, form)
        case w.Calls() as form:
            return _calls(site, form)
        case w.OnlyAfter() as form:
            return _only_after(site, form)
        case w.WaitsFor(late, awaited, after):
            parts = _parts(site, late, awaited, after)
            return p.WaitsFor(*parts) if parts else None
        case w.Possible(wanted):
            possible = resolve(site, wanted)
            return None if possible is None else p.Possible(possible)
    assert_never(item.form)


def _parts(
    site: Site, first: w.Expr, second: w.Expr, third: w.Expr | None
) -> tuple[p.Expr, p.Expr, p.Expr | None] | None:
    """The parts resolved in the order written; None if there is a mistake in any, and all are told."""
    a, b = resolve(site, first), resolve(site, second)
    c = resolve(site, third) if third else None
    return None if a is None or b is None or (third and c is None) else (a, b, c)


def _never(site: Site, form: w.Never) -> p.Form | None:
    x = resolve(site, form.p)
    r = resolve(site, form.r) if form.r else None
    t = duration(site.scope, form.longer) if form.longer else None
    if x is None or (form.r and r is None) or (form.longer and t is None):
        return None
    if t is None:
        return p.Never(p.Not(x) if form.always else x, r, form.always, form.instant)
    edges = [tell_edges(site, part, "`for longer than`") for part in (x, r) if part is not None]
    return None if any(edges) else p.NeverLonger(x, r, t)


def _calls(site: Site, form: w.Calls) -> p.Form | None:
    parts = _parts(site, form.p, form.q, form.excused)
    t = duration(site.scope, form.time)
    if parts is None or t is None:
        return None
    x, q, r = parts
    return p.CallsLasting(x, q, t, r) if form.lasting else p.CallsWithin(x, q, t, r)


def _only_after(site: Site, form: w.OnlyAfter) -> p.Form | None:
    parts = _parts(site, form.q, form.p, form.since)
    t = duration(site.scope, form.lasted) if form.lasted else None
    if parts is None or (form.lasted and t is None):
        return None
    q, x, r = parts
    if t is not None and tell_untimed(site, x, "`has lasted`"):
        return None
    return p.OnlyAfter(q, x, t, r)
