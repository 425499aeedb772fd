"""The harness: sources, grounds, wires and what joins them, diodes, relays, and loads that hang on a wire."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from logiccheck.base.span import Span
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.parts import JoinedToItself, OtherwiseAlone
from logiccheck.lang.resolve.electrical import current, electrical, laid
from logiccheck.lang.resolve.expressions import Site, resolve
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import ENDS, Keys, Kind, Scope
from logiccheck.lang.resolve.world import label

_ALWAYS = p.Const(True)


@dataclass(slots=True)
class Harness:
    """The parts of the harness, in the order written."""

    sources: list[p.Source] = field(default_factory=list)
    grounds: list[p.Ground] = field(default_factory=lambda: [p.Ground("ground", "ground", _ALWAYS)])
    wires: list[p.Wire] = field(default_factory=list)
    contacts: list[p.Contact] = field(default_factory=list)
    diodes: list[p.Diode] = field(default_factory=list)
    relays: list[p.Relay] = field(default_factory=list)
    loads: list[p.Load] = field(default_factory=list)


def harness(scope: Scope, items: Iterable[w.Item]) -> Harness:
    """All parts of the harness among the items."""
    found = Harness()
    for item in items:
        _item(scope, item, found)
    return found


def _item(scope: Scope, item: w.Item, found: Harness) -> None:
    match item:
        case w.Source(name, quoted, condition, span):
            closed = _condition(scope, condition, name.text)
            if closed is not None:
                found.sources.append(p.Source(name.text, label(name, quoted), closed, span))
        case w.Ground(name, quoted, condition, span):
            closed = _condition(scope, condition, name.text)
            if closed is not None:
                found.grounds.append(p.Ground(name.text, label(name, quoted), closed, span))
        case w.Wire():
            found.wires.append(p.Wire(item.name.text, label(item.name, item.label), item.span, laid(scope, item)))
            found.contacts.extend(_connections(scope, item))
        case w.Join():
            found.contacts.extend(_join(scope, item))
        case w.Diode(anode, cathode, span):
            left, right = _end(scope, anode), _end(scope, cathode)
            if left and right and _differ(scope, left, right, span):
                found.diodes.append(p.Diode(left, right, span))
        case w.Relay():
            found.relays.extend(_relay(scope, item))
        case w.Load(name, quoted, wire, draws, span):
            data = electrical(scope, draws)
            hung = scope.want(wire, {Kind.WIRE}, "a wire")
            if hung:
                found.loads.append(p.Load(name.text, label(name, quoted), hung, data, span))
        case _:
            pass


def load_wires(scope: Scope, items: Iterable[w.Item]) -> None:
    """Tells the scope on which wire each load hangs, before any load is named."""
    for item in items:
        if isinstance(item, w.Load):
            scope.load_wires[item.name.text] = item.wire.text


def _condition(scope: Scope, condition: w.Expr | None, item: str) -> p.Expr | None:
    """When a contact is closed; always, if nothing is said."""
    if condition is None:
        return _ALWAYS
    return resolve(Site(scope, Place.CONTACT, Keys(item)), condition)


def _end(scope: Scope, name: w.Name) -> str | None:
    return scope.want(name, ENDS, "a wire, a source or a ground")


def _differ(scope: Scope, left: str, right: str, span: Span) -> bool:
    if left == right:
        scope.tell(JoinedToItself(left), span)
    return left != right


def _connections(scope: Scope, wire: w.Wire) -> list[p.Contact]:
    """The contacts between a wire and what it is connected to."""
    contacts: list[p.Contact] = []
    before: list[p.Expr] = []
    for i, connection in enumerate(wire.connections):
        end = _end(scope, connection.end)
        if connection.otherwise:
            earlier = wire.connections[:i]
            if not earlier or i + 1 < len(wire.connections) or any(c.condition is None for c in earlier):
                scope.tell(OtherwiseAlone(), connection.span)
                continue
            closed: p.Expr | None = _none_of(before) if len(before) == len(earlier) else None
        else:
            closed = _condition(scope, connection.condition, wire.name.text)
            before += [closed] if closed is not None else []
        if end and closed is not None and _differ(scope, end, wire.name.text, connection.span):
            contacts.append(p.Contact(end, wire.name.text, closed, connection.span))
    return contacts


def _none_of(conditions: list[p.Expr]) -> p.Expr:
    """What `otherwise` stands for; it has no place, as it is written nowhere."""
    negations = tuple(p.Not(condition) for condition in conditions)
    return negations[0] if len(negations) == 1 else p.And(negations)


def _join(scope: Scope, join: w.Join) -> list[p.Contact]:
    left, right = _end(scope, join.left), _end(scope, join.right)
    closed = _condition(scope, join.condition, "join")
    if not left or not right or closed is None or not _differ(scope, left, right, join.span):
        return []
    return [p.Contact(left, right, closed, join.span)]


def _relay(scope: Scope, relay: w.Relay) -> list[p.Relay]:
    name = relay.name.text
    coil = resolve(Site(scope, Place.COIL, Keys(name)), relay.coil)
    supply = feed(scope, relay.supply) if relay.supply else None
    draws = current(scope, relay.draws, "The current of the coil") if relay.draws else None
    if coil is None or (relay.supply and supply is None):
        return []
    return [p.Relay(name, label(relay.name, relay.label), coil, supply, relay.span, draws)]


def feed(scope: Scope, name: w.Name) -> p.Signal | None:
    """A wire or a source that supplies something: it is live."""
    found = scope.want(name, {Kind.WIRE, Kind.SOURCE}, "a wire or a source")
    if found is None:
        return None
    source = scope.declared[found].kind is Kind.SOURCE
    return p.Signal(p.SignalKind.SOURCE if source else p.SignalKind.LIVE, found, name.span)
