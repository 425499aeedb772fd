"""The block `electrics`: what copper has around it, its batteries, dips of voltage, and tell-tales."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import assert_never

from logiccheck.base.span import NOWHERE, Span
from logiccheck.base.units import Dimension
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.electrics import BatteryTwice, ElectricsTwice
from logiccheck.lang.mistakes.parts import SaidTwice
from logiccheck.lang.resolve.amounts import above_zero, amount, duration
from logiccheck.lang.resolve.electrical import percent
from logiccheck.lang.resolve.expressions import Site, resolve
from logiccheck.lang.resolve.given import TextOf
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import Keys, Kind, Scope

_MINUTE = 60_000_000


@dataclass(slots=True)
class _Found:
    """`said`: where each line that may be there once stands."""

    said: dict[str, Span] = field(default_factory=dict)
    nominal: Fraction | None = None
    ambient: Fraction | None = None
    engine_space: Fraction | None = None
    apart: p.Micros | None = None
    parked: p.Expr | None = None
    batteries: list[p.Battery] = field(default_factory=list)
    dips: list[p.Dip] = field(default_factory=list)
    tell_tales: list[p.TellTale] = field(default_factory=list)


def electrics(scope: Scope, files: Sequence[w.File], items: Iterable[tuple[w.Item, TextOf]]) -> p.Electrics:
    """What is said of the copper as a whole; each item comes with what gives the text of its spans."""
    headers = [block.header for file in files for block in file.blocks]
    blocks = [header.span for header in headers if isinstance(header, w.Plain) and header.word == "electrics"]
    for span in blocks[1:]:
        scope.tell(ElectricsTwice(), span, blocks[0])
    found = _Found()
    for item, text_of in items:
        if isinstance(item, w.ElectricsItem):
            _item(scope, item, text_of, found)
    return p.Electrics(
        found.nominal,
        found.ambient,
        found.engine_space,
        found.apart,
        found.parked,
        tuple(found.batteries),
        tuple(found.dips),
        tuple(found.tell_tales),
        blocks[0] if blocks else NOWHERE,
    )


def _item(scope: Scope, item: w.ElectricsItem, text_of: TextOf, found: _Found) -> None:
    match item:
        case w.Setting(word, _, span):
            _once(scope, word, span, found)
            _setting(scope, item, found)
        case w.Parked(condition, span):
            _once(scope, "parked", span, found)
            found.parked = resolve(_site(scope, Place.PARKED), condition)
        case w.Battery():
            found.batteries.extend(_battery(scope, item, found.batteries))
        case w.Dip(source, written, time, span):
            name = scope.want(source, {Kind.SOURCE}, "a source")
            x, t = resolve(_site(scope, Place.DIP), written), duration(scope, time)
            if name is not None and x is not None and t is not None:
                found.dips.append(p.Dip(name, x, t, span))
        case w.TellTale():
            found.tell_tales.extend(_tell_tale(scope, item, text_of))
        case _:
            assert_never(item)


def _site(scope: Scope, place: Place) -> Site:
    """Nothing in this block remembers, so no key is ever handed out."""
    return Site(scope, place, Keys("electrics"))


def _once(scope: Scope, word: str, span: Span, found: _Found) -> None:
    if word in found.said:
        scope.tell(SaidTwice(word), span, found.said[word])
    found.said.setdefault(word, span)


def _setting(scope: Scope, item: w.Setting, found: _Found) -> None:
    match item.word:
        case "nominal":
            found.nominal = above_zero(scope, item.amount, Dimension.VOLTAGE, "The nominal voltage")
        case "ambient":
            found.ambient = _degrees(scope, item.amount, "the ambient temperature")
        case "engine space":
            found.engine_space = _degrees(scope, item.amount, "the temperature of the engine space")
        case _:
            found.apart = duration(scope, item.amount)


def _degrees(scope: Scope, written: w.Amount, what: str) -> Fraction | None:
    found = amount(scope, written, Dimension.TEMPERATURE, what)
    return found.value if found else None


def _battery(scope: Scope, item: w.Battery, earlier: list[p.Battery]) -> list[p.Battery]:
    """The battery; none, and told, if its source is not known or has one already."""
    parts: dict[str, w.BatteryPart] = {}
    for part in item.parts:
        if part.word in parts:
            scope.tell(SaidTwice(part.word), part.span, parts[part.word].span)
        parts.setdefault(part.word, part)
    reserve = _said(parts, "reserve", lambda each: duration(scope, each))
    data = (
        _said(parts, "capacity", lambda each: above_zero(scope, each, Dimension.CHARGE, "The capacity")),
        None if reserve is None else Fraction(reserve, _MINUTE),
        _said(parts, "cranks", lambda each: percent(scope, each, "the charge with which it still cranks")),
        _said(parts, "loses", lambda each: percent(scope, each, "what a battery loses in a month")),
    )
    name = scope.want(item.source, {Kind.SOURCE}, "a source")
    first = next((each for each in earlier if each.source == name), None)
    if first is not None:
        scope.tell(BatteryTwice(first.source), item.span, first.span)
        return []
    return [] if name is None else [p.Battery(name, *data, item.span)]


def _said(
    parts: dict[str, w.BatteryPart], word: str, read: Callable[[w.Amount], Fraction | int | None]
) -> Fraction | None:
    """What is said with a word, read; None if nothing is, or if it cannot be read."""
    value = read(parts[word].amount) if word in parts else None
    return None if value is None else Fraction(value)


def _tell_tale(scope: Scope, item: w.TellTale, text_of: TextOf) -> list[p.TellTale]:
    site = _site(scope, Place.TELL_TALE)
    x, r = resolve(site, item.p), resolve(site, item.r) if item.r is not None else None
    t = duration(scope, item.time)
    if x is None or t is None or (item.r is not None and r is None):
        return []
    text = text_of(item.p.span)
    label = item.label.text if item.label is not None and item.label.text.strip() else text
    return [p.TellTale(x, t, r, text, label, item.span)]
