"""What a name with or without a value reads as: positions, comparisons, signals."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from logiccheck.base.span import NOWHERE, Span
from logiccheck.base.suggest import near
from logiccheck.base.units import Quantity, said_quantity, show_number, show_quantity, units_of
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.names import NotANumber, NotTrueOrFalse, NumberAlone, ValueDoesNotFit
from logiccheck.lang.mistakes.positions import NoPositions, SwitchAlone, UnknownPosition
from logiccheck.lang.mistakes.quantities import OutOfRange
from logiccheck.lang.resolve.amounts import amount
from logiccheck.lang.resolve.places import ALLOWED, Place, breach
from logiccheck.lang.resolve.scope import NUMBERS, Declared, Kind, Scope

OPS: dict[str, p.Op] = {"above": p.Op.GT, "below": p.Op.LT, "at least": p.Op.GE, "at most": p.Op.LE, "is": p.Op.EQ}

_STATES: dict[Kind, dict[str, bool]] = {
    Kind.WIRE: {"live": True},
    Kind.SOURCE: {"live": True, "on": True, "off": False},
    Kind.GROUND: {"grounded": True},
    Kind.LOAD: {"on": True, "off": False, "live": True},
    Kind.RELAY: {"on": True, "off": False},
    Kind.SENSE: {"on": True, "off": False},
    Kind.RULE: {"on": True, "off": False},
    Kind.OUTPUT: {"on": True, "off": False},
    Kind.POWERED: {"on": True, "off": False},
}

_SIGNALS: dict[Kind, p.SignalKind] = {
    Kind.SOURCE: p.SignalKind.SOURCE,
    Kind.GROUND: p.SignalKind.GROUND,
    Kind.WIRE: p.SignalKind.LIVE,
    Kind.LOAD: p.SignalKind.LIVE,
    Kind.RELAY: p.SignalKind.RELAY,
    Kind.SENSE: p.SignalKind.SENSE,
    Kind.RULE: p.SignalKind.RULE,
    Kind.OUTPUT: p.SignalKind.OUTPUT,
    Kind.POWERED: p.SignalKind.POWERED,
}


def subject(scope: Scope, name: w.Name, place: Place) -> Declared | None:
    """The declaration of a name that may stand in this place; None, and told, if it may not."""
    entry = scope.find(name)
    if entry is None or entry.kind in ALLOWED[place]:
        return entry
    if entry.kind not in _SIGNALS and entry.kind not in NUMBERS and entry.kind is not Kind.SWITCH:
        scope.tell(NotTrueOrFalse(name.text, entry.kind.value), name.span)
    else:
        scope.tell(breach(place, entry, scope), name.span)
    return None


def bare(scope: Scope, name: w.Name, place: Place, span: Span) -> p.Expr | None:
    """A name by itself."""
    entry = subject(scope, name, place)
    if entry is None:
        return None
    if entry.kind is Kind.SWITCH:
        switch = scope.switches.get(entry.name)
        if switch is not None and switch.contact:
            return p.Position(switch.name, frozenset({1}), span)
        if switch is not None:
            scope.tell(SwitchAlone(switch.name, switch.positions), span, switch.span)
        return None
    if entry.kind in NUMBERS:
        gauge = scope.gauges.get(entry.name)
        example = show_quantity(gauge.low.value, gauge.low.unit.name) if gauge else "0 rpm"
        scope.tell(NumberAlone(entry.name, example), span)
        return None
    return _signal(scope, entry, place, span)


def _signal(scope: Scope, entry: Declared, place: Place, span: Span) -> p.Signal:
    kind = _SIGNALS[entry.kind]
    if kind is p.SignalKind.OUTPUT and place is Place.RULE:
        kind = p.SignalKind.COMMAND
    load = entry.kind is Kind.LOAD
    name = scope.load_wires.get(entry.name, entry.name) if load else entry.name
    return p.Signal(kind, name, span, entry.name if load else "")


def equals(scope: Scope, name: w.Name, value: w.Amount, negated: bool, place: Place, span: Span) -> p.Expr | None:
    """`name is value`, or `name is not value`."""
    entry = subject(scope, name, place)
    if entry is None:
        return None
    if entry.kind is Kind.SWITCH:
        return _position(scope, entry, (value,), negated, span)
    if entry.kind in NUMBERS:
        return compare(scope, entry, p.Op.NE if negated else p.Op.EQ, value, span)
    if not isinstance(value, w.Name):
        scope.tell(NotANumber(entry.name, entry.kind.value, tuple(scope.names(NUMBERS))), value.span)
        return None
    if entry.kind is Kind.WIRE and value.text == "grounded":
        return _signed(p.Signal(p.SignalKind.GROUNDED, entry.name, span), not negated, NOWHERE)
    states = _STATES.get(entry.kind, {})
    if value.text not in states:
        allowed = (*states, "grounded") if entry.kind is Kind.WIRE else tuple(states)
        scope.tell(ValueDoesNotFit(entry.name, entry.kind.value, value.text, allowed), value.span)
        return None
    return _signed(_signal(scope, entry, place, span), states[value.text] is not negated, name.span)


def _signed(signal: p.Signal, so: bool, inner: Span) -> p.Expr:
    """The signal, or that it is not so; then the signal itself stands at `inner`: the whole would say the opposite."""
    return signal if so else p.Not(replace(signal, span=inner), signal.span)


def one_of(scope: Scope, name: w.Name, values: tuple[w.Amount, ...], place: Place, span: Span) -> p.Expr | None:
    """`name in {values}`, for a switch."""
    entry = subject(scope, name, place)
    if entry is None:
        return None
    if entry.kind is not Kind.SWITCH:
        scope.tell(NoPositions(entry.name, entry.kind.value), name.span)
        return None
    return _position(scope, entry, values, False, span)


def _position(
    scope: Scope, entry: Declared, values: tuple[w.Amount, ...], negated: bool, span: Span
) -> p.Position | None:
    switch = scope.switches.get(entry.name)
    if switch is None:
        return None
    indices = [position_index(scope, switch, value) for value in values]
    if None in indices:
        return None
    known = frozenset(index for index in indices if index is not None)
    others = frozenset(range(len(switch.positions))) - known
    return p.Position(switch.name, others if negated else known, span)


def position_index(scope: Scope, switch: p.Switch, value: w.Amount) -> int | None:
    """Which position of the switch a word names."""
    if not isinstance(value, w.Name):
        scope.tell(NotANumber(switch.name, Kind.SWITCH.value, tuple(scope.names(NUMBERS))), value.span)
        return None
    if value.text in switch.positions:
        return switch.positions.index(value.text)
    elsewhere = tuple(sorted(s.name for s in scope.switches.values() if value.text in s.positions))
    close = near(value.text, switch.positions)
    message = UnknownPosition(switch.name, value.text, switch.positions, elsewhere, close)
    scope.tell(message, value.span, switch.span)
    return None


def held(scope: Scope, name: w.Name, op: p.Op, value: w.Amount, place: Place, span: Span) -> p.Expr | None:
    """`name above value` and the like."""
    entry = subject(scope, name, place)
    if entry is None:
        return None
    if entry.kind not in NUMBERS:
        scope.tell(NotANumber(entry.name, entry.kind.value, tuple(scope.names(NUMBERS))), name.span)
        return None
    return compare(scope, entry, op, value, span)


def compare(scope: Scope, entry: Declared, op: p.Op, value: w.Amount, span: Span) -> p.Expr | None:
    """A number or number sense against a constant; through the filter of the sense if it has one."""
    bound = bounded(scope, entry.name, value)
    if bound is None:
        return None
    sense = entry.kind is Kind.NUMBER_SENSE
    comparison = p.Compare(entry.name, sense, op, bound, span)
    window = scope.filters.get(entry.name)
    if window is None:
        return comparison
    return p.Timer(p.TimerKind.FILTER, comparison, window, f"{entry.name} {op.value} {show_number(bound)}", span)


def bounded(scope: Scope, name: str, value: w.Amount) -> Fraction | None:
    """A quantity that fits the number or number sense `name`: of its dimension and inside its range."""
    gauge = scope.gauges.get(name)
    if gauge is None:
        return None
    found = amount(scope, value, gauge.dimension, f"`{name}`")
    if found is None:
        return None
    if not gauge.low.value <= found.value <= gauge.high.value:
        scope.tell(_out_of_range(gauge.number, found, gauge.low, gauge.high), value.span, gauge.span)
        return None
    return found.value


def _out_of_range(name: str, found: Quantity, low: Quantity, high: Quantity) -> OutOfRange:
    unit = found.unit.name
    assert unit in units_of(low.dimension)
    return OutOfRange(
        name,
        said_quantity(found.value, unit),
        said_quantity(low.value, high.unit.name),
        said_quantity(high.value, high.unit.name),
    )
