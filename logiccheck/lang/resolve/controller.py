"""The controller: its power, its senses, and its rules and outputs in dependency order."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from logiccheck.base.units import show_quantity
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.electrics import AwakeOrAsleep
from logiccheck.lang.mistakes.names import WrongKind
from logiccheck.lang.mistakes.parts import MissingReading, ReadingOfNumber, SaidTwice, WrongSubstitute
from logiccheck.lang.mistakes.places import SwitchSensed
from logiccheck.lang.resolve.amounts import window
from logiccheck.lang.resolve.circles import in_dependency_order
from logiccheck.lang.resolve.electrical import current, electrical
from logiccheck.lang.resolve.expressions import Site, resolve
from logiccheck.lang.resolve.harness import feed
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import Gauge, Keys, Kind, Scope
from logiccheck.lang.resolve.values import bounded
from logiccheck.lang.resolve.world import label

START_UP_KEY = "powered"


def gauges(scope: Scope, items: Iterable[w.Item]) -> None:
    """Tells the scope what each number sense reads and how it is filtered, before any of them is compared."""
    for item in items:
        if isinstance(item, w.Sense) and (number := scope.gauges.get(item.input.text)) is not None:
            scope.gauges[item.name.text] = Gauge(number.number, number.low, number.high, number.span)


def controller(scope: Scope, header: w.Controller | None, items: tuple[w.Item, ...]) -> p.Box | None:
    """The box; None if there is no controller, or its header could not be understood."""
    read = [_sense(scope, item) for item in items if isinstance(item, w.Sense)]
    senses = tuple(sense for sense in read if sense is not None)
    rules = [_rule(scope, item) for item in items if isinstance(item, w.Rule | w.Output)]
    ordered = in_dependency_order(scope, [rule for rule in rules if rule is not None])
    draws = _draws(scope, [part for item in items if isinstance(item, w.BoxDraws) for part in item.parts])
    if header is None:
        return None
    fed = feed(scope, header.feed)
    delay = window(scope, header.delay) if header.delay else None
    if fed is None or (header.delay and delay is None):
        return None
    startup = p.Timer(p.TimerKind.ON_DELAY, fed, delay, START_UP_KEY, header.span) if delay else None
    text = header.label.text if header.label else "controller"
    return p.Box(text, fed.name, startup, senses, ordered, header.span, draws.get("awake"), draws.get("asleep"))


def _draws(scope: Scope, parts: Iterable[w.BoxDraw]) -> dict[str, Fraction | None]:
    """What the box draws, by `awake` and `asleep`."""
    said: dict[str, w.BoxDraw] = {}
    found: dict[str, Fraction | None] = {}
    for part in parts:
        word = part.when.text
        if word not in ("awake", "asleep"):
            scope.tell(AwakeOrAsleep(word), part.when.span)
        elif word in said:
            scope.tell(SaidTwice(word), part.span, said[word].span)
        else:
            said[word] = part
            found[word] = current(scope, part.amount, "The current of the box")
    return found


# ---------------------------------------------------------------------------------------------------------- senses


def _sense(scope: Scope, item: w.Sense) -> p.WireSense | p.NumberSense | None:
    filters = [part for part in item.parts if isinstance(part, w.Filter)]
    substitutes = [part for part in item.parts if isinstance(part, w.Substitute)]
    for doubles, word in ((filters, "filter"), (substitutes, "substitute")):
        if len(doubles) > 1:
            scope.tell(SaidTwice(word), doubles[1].span, doubles[0].span)
    delay = window(scope, filters[0].window) if filters else None
    substitute = substitutes[0] if substitutes else None
    entry = scope.find(item.input)
    if entry is None:
        return None
    match entry.kind:
        case Kind.NUMBER:
            return _number_sense(scope, item, delay, substitute)
        case Kind.WIRE:
            return _wire_sense(scope, item, delay, substitute)
        case Kind.SWITCH | Kind.SOURCE | Kind.RELAY | Kind.LOAD | Kind.GROUND:
            scope.tell(SwitchSensed(item.input.text, entry.kind.value), item.input.span)
        case _:
            choice = tuple(scope.names({Kind.WIRE, Kind.NUMBER}))
            scope.tell(WrongKind(item.input.text, entry.kind.value, "a wire or a number", choice), item.input.span)
    return None


def _number_sense(
    scope: Scope, item: w.Sense, delay: p.Window | None, substitute: w.Substitute | None
) -> p.NumberSense | None:
    name = item.name.text
    if item.reading:
        scope.tell(ReadingOfNumber(item.input.text, item.reading), item.span)
    value: Fraction | None = None
    if substitute is not None:
        if isinstance(substitute.value, bool):
            gauge = scope.gauges.get(name)
            wanted = f"`substitute {show_quantity(gauge.low.value, gauge.high.unit.name)}`" if gauge else "a quantity"
            scope.tell(WrongSubstitute(wanted), substitute.span)
        else:
            value = bounded(scope, name, substitute.value)
    return p.NumberSense(name, label(item.name, item.label), item.input.text, delay, value, item.span)


def _wire_sense(
    scope: Scope, item: w.Sense, delay: p.Window | None, substitute: w.Substitute | None
) -> p.WireSense | None:
    name, wire = item.name.text, item.input.text
    if item.reading is None:
        scope.tell(MissingReading(wire), item.input.span)
        return None
    if substitute is not None and not isinstance(substitute.value, bool):
        scope.tell(WrongSubstitute("`substitute on` or `substitute off`"), substitute.span)
        return None
    grounded = item.reading == "grounded"
    kind = p.SignalKind.GROUNDED if grounded else p.SignalKind.LIVE
    signal = p.Signal(kind, wire, item.input.span)
    timer = p.Timer(p.TimerKind.FILTER, signal, delay, name, item.span) if delay else None
    value = bool(substitute.value) if substitute else None
    return p.WireSense(name, label(item.name, item.label), wire, grounded, timer, value, item.span)


def filters(scope: Scope, items: Iterable[w.Item]) -> None:
    """Tells the scope the filter times of number senses; their mistakes are told where the sense is resolved."""
    for item in items:
        if isinstance(item, w.Sense) and item.name.text in scope.gauges:
            told = len(scope.found)
            for part in item.parts:
                found = window(scope, part.window) if isinstance(part, w.Filter) else None
                if found is not None:
                    scope.filters.setdefault(item.name.text, found)
            del scope.found[told:]


# ----------------------------------------------------------------------------------------------- rules and outputs


def _rule(scope: Scope, item: w.Rule | w.Output) -> p.Rule | p.Output | None:
    name = item.name.text
    site = Site(scope, Place.RULE, Keys(name))
    text = label(item.name, item.label)
    if isinstance(item, w.Rule):
        expr = resolve(site, item.expr)
        return None if expr is None else p.Rule(name, text, expr, item.span)
    command = resolve(site, item.command)
    fed_by, feeds, data = _output_parts(scope, item)
    return None if command is None else p.Output(name, text, command, fed_by, feeds, data, item.span)


def _output_parts(scope: Scope, item: w.Output) -> tuple[str | None, str | None, p.Electrical]:
    """The wire that feeds an output, the wire it feeds, and what its load draws."""
    words = ["load" if isinstance(part, w.Draws) else "fed by" if part.by else "feeds" for part in item.parts]
    found: dict[str, str | None] = {}
    data = p.NO_ELECTRICAL
    for i, (word, part) in enumerate(zip(words, item.parts, strict=True)):
        if word in words[:i]:
            scope.tell(SaidTwice(word), part.span, item.parts[words.index(word)].span)
        elif isinstance(part, w.Draws):
            data = electrical(scope, part.parts)
        else:
            found[word] = scope.want(part.wire, {Kind.WIRE}, "a wire")
    return found.get("fed by"), found.get("feeds"), data
