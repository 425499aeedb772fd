"""The world: constants, switches, numbers, and what is so at first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logiccheck.base.units import Quantity, show_quantity
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.positions import SamePosition
from logiccheck.lang.mistakes.quantities import EmptyRange, WrongUnit
from logiccheck.lang.resolve.amounts import plain, value
from logiccheck.lang.resolve.expressions import Site, resolve
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import Gauge, Keys, Scope


def label(name: w.Name, quoted: w.Quoted | None) -> str:
    """What people call it: its label, or its name if it has none."""
    return quoted.text if quoted is not None and quoted.text.strip() else name.text


def constants(scope: Scope, items: Iterable[w.Constant]) -> None:
    """Gives each constant its value."""
    for item in items:
        found = value(scope, item.value)
        if found is not None:
            scope.constants.setdefault(item.name.text, found)


def switches(scope: Scope, items: Iterable[w.Switch]) -> tuple[p.Switch, ...]:
    """The switches of the world, known to the scope from now on."""
    for item in items:
        contact = not item.positions
        names = ("off", "on") if contact else tuple(position.text for position in item.positions)
        for i, position in enumerate(item.positions):
            if position.text in names[:i]:
                scope.tell(SamePosition(position.text), position.span, item.positions[names.index(position.text)].span)
        switch = p.Switch(item.name.text, label(item.name, item.label), names, item.one_by_one, contact, item.span)
        scope.switches.setdefault(switch.name, switch)
    return tuple(scope.switches.values())


def numbers(scope: Scope, items: Iterable[w.Number]) -> tuple[p.Number, ...]:
    """The numbers of the world; their ranges are known to the scope from now on, their bounds not yet."""
    found: dict[str, p.Number] = {}
    for item in items:
        ends = _range(scope, item)
        if ends is None or item.name.text in found:
            continue
        low, high = ends
        name = item.name.text
        text = label(item.name, item.label)
        found[name] = p.Number(name, text, low.value, high.value, high.unit.name, (), jumps=True, span=item.span)
        scope.gauges[name] = Gauge(name, low, high, item.span)
    return tuple(found.values())


def _range(scope: Scope, item: w.Number) -> tuple[Quantity, Quantity] | None:
    """The two ends of a number; a low end without a unit has the unit of the high end."""
    high = plain(scope, item.high, None)
    low_written = replace(item.low, unit=item.low.unit or item.high.unit)
    low = plain(scope, low_written, None) if high is not None else None
    if low is None or high is None:
        return None
    if low.dimension is not high.dimension:
        wrong = WrongUnit(low.dimension.value, high.dimension.value, "the upper end", (high.unit.name,))
        scope.tell(wrong, item.low.span, item.high.span)
        return None
    if low.value >= high.value:
        shown = show_quantity(low.value, low.unit.name), show_quantity(high.value, high.unit.name)
        scope.tell(EmptyRange(*shown), item.low.span.to(item.high.span))
        return None
    return low, high


def at_first(scope: Scope, items: Iterable[w.First]) -> tuple[p.Expr, ...]:
    """The facts of the world at time 0."""
    site = Site(scope, Place.FIRST, Keys("at first"))
    facts = [resolve(site, fact) for item in items for fact in item.facts]
    return tuple(fact for fact in facts if fact is not None)
