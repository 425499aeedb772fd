"""The lines behind a signal, nearest first: its own, those of what they name, of what reaches its wire, and so on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TypeVar

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE
from logiccheck.explain.spots import with_another
from logiccheck.lang.matters import Item, named
from logiccheck.lang.program import Expr, NumberSense, Output, Program, SignalKind
from logiccheck.lang.rebuild import with_condition
from logiccheck.lang.walk import condition_of

LIVE, GROUNDED = SignalKind.LIVE.value, SignalKind.GROUNDED.value
SOURCE, GROUND = SignalKind.SOURCE.value, SignalKind.GROUND.value
T = TypeVar("T")
POWERED: Item = (SignalKind.POWERED.value, "powered")


@frozen
class Line:
    """A condition as written: whose it is, and `put`, which gives the program with another one in its place."""

    name: str
    expr: Expr
    put: Callable[[Expr], Program]


def levels(program: Program, asked: Expr) -> Iterator[tuple[Line, ...]]:
    """The lines of what `asked` names, then the lines of what stands behind these, and so on; each line once."""
    behind = _Behind(program)
    items = named([asked])
    known, told = set(items), set[tuple[str, int]]()
    while items:
        places = {place: item for item in sorted(items, reverse=True) for place in behind.places(item)}
        yield tuple(behind.line(place, places[place]) for place in sorted(places) if place not in told)
        told |= places.keys()
        items = {each for item in items for each in behind.items(item)} - known
        known |= items


class _Behind:
    """What stands behind an item: lines, by their kind and place in the program, and other items."""

    def __init__(self, program: Program) -> None:
        self.program, self.box = program, program.box
        self.rules = {rule.name: at for at, rule in enumerate(program.box.rules)} if program.box else {}
        self.senses = {sense.name: sense for sense in program.box.senses} if program.box else {}
        self.wires = {wire.name for wire in program.wires}
        self.sources = {source.name: at for at, source in enumerate(program.sources)}
        self.grounds = {ground.name: at for at, ground in enumerate(program.grounds)}
        self.relays = {relay.name: at for at, relay in enumerate(program.relays)}

    def places(self, item: Item) -> list[tuple[str, int]]:
        """Where the lines of an item stand."""
        kind, name = item
        if kind in (LIVE, GROUNDED):
            written = [(at, each) for at, each in enumerate(self.program.contacts) if each.condition.span != NOWHERE]
            return [("contact", at) for at, contact in written if name in (contact.left, contact.right)]
        if kind == SOURCE:
            return [("source", self.sources[name])]
        if kind == GROUND:
            return [("ground", self.grounds[name])]
        if kind == SignalKind.RELAY.value:
            supplied = self.program.relays[self.relays[name]].supply is not None
            return [(each, self.relays[name]) for each in (("coil", "supply") if supplied else ("coil",))]
        return [("rule", self.rules[name])] if name in self.rules else []

    def line(self, place: tuple[str, int], item: Item) -> Line:
        """The line at a place; of a contact the name is that of the wire by way of which it was found."""
        program, (kind, at) = self.program, place
        match kind:
            case "contact":
                condition = program.contacts[at].condition
                return Line(item[1], condition, lambda expr: _with_contacts(program, condition, expr))
            case "source":
                source = program.sources[at]
                sources = _putting(program.sources, at, lambda expr: replace(source, condition=expr))
                return Line(source.name, source.condition, lambda expr: replace(program, sources=sources(expr)))
            case "ground":
                ground = program.grounds[at]
                grounds = _putting(program.grounds, at, lambda expr: replace(ground, condition=expr))
                return Line(ground.name, ground.condition, lambda expr: replace(program, grounds=grounds(expr)))
            case "coil" | "supply":
                return self._relay(at, kind == "supply")
            case _:
                return self._rule(at)

    def _relay(self, at: int, supply: bool) -> Line:
        program = self.program
        relay = program.relays[at]
        if supply and relay.supply is not None:
            put = _putting(program.relays, at, lambda expr: replace(relay, supply=expr))
            return Line(relay.name, relay.supply, lambda expr: replace(program, relays=put(expr)))
        put = _putting(program.relays, at, lambda expr: replace(relay, coil=expr))
        return Line(relay.name, relay.coil, lambda expr: replace(program, relays=put(expr)))

    def _rule(self, at: int) -> Line:
        program, box = self.program, self.box
        assert box is not None
        rule = box.rules[at]
        expr = condition_of(rule)

        def put(other: Expr) -> Program:
            changed = with_condition(rule, other)
            return replace(program, box=replace(box, rules=(*box.rules[:at], changed, *box.rules[at + 1 :])))

        return Line(rule.name, expr, put)

    def items(self, item: Item) -> set[Item]:
        """What the lines of an item name, and what else stands behind it: the next wires, what feeds it, power."""
        found = named(self.line(place, item).expr for place in self.places(item))
        return found | set(self._copper(item) if item[0] in (LIVE, GROUNDED) else self._boxed(item))

    def _copper(self, item: Item) -> Iterator[Item]:
        kind, name = item
        for contact in self.program.contacts:
            if name in (contact.left, contact.right):
                yield from self._end(kind, contact.right if name == contact.left else contact.left)
        for diode in self.program.diodes:
            tail, head = (diode.anode, diode.cathode) if kind == LIVE else (diode.cathode, diode.anode)
            if head == name:
                yield from self._end(kind, tail)
        for output in self.box.outputs if self.box and kind == LIVE else ():
            if output.feeds == name:
                yield SignalKind.OUTPUT.value, output.name

    def _boxed(self, item: Item) -> Iterator[Item]:
        if self.box is None:
            return
        if item == POWERED:
            yield from self._end(LIVE, self.box.feed)
        if (sense := self.senses.get(item[1])) is not None:
            yield POWERED
            if not isinstance(sense, NumberSense):
                yield from self._end(GROUNDED if sense.grounded else LIVE, sense.wire)
        if item[1] in self.rules:
            yield POWERED
            rule = self.box.rules[self.rules[item[1]]]
            if item[0] == SignalKind.OUTPUT.value and isinstance(rule, Output) and rule.fed_by is not None:
                yield from self._end(LIVE, rule.fed_by)

    def _end(self, kind: str, name: str) -> Iterator[Item]:
        if name in self.wires:
            yield kind, name
        elif name in self.sources:
            yield SOURCE, name
        elif name in self.grounds:
            yield GROUND, name


def _with_contacts(program: Program, old: Expr, new: Expr) -> Program:
    """The new condition for the old one, also where an `otherwise` means that none such holds."""
    contacts = (replace(each, condition=with_another(each.condition, old, new)) for each in program.contacts)
    return replace(program, contacts=tuple(contacts))


def _putting(items: tuple[T, ...], at: int, changed: Callable[[Expr], T]) -> Callable[[Expr], tuple[T, ...]]:
    return lambda expr: (*items[:at], changed(expr), *items[at + 1 :])
