"""What can matter to a question, by names alone: everything its answer could hang on, through any number of moments.

An *item* is a thing of the vehicle by kind and name: ("world", "key"), ("live", "wake"), ("relay", "hold"), ("rule",
"prime"), ... An item needs what its own lines name; a wire needs what can arrive at it, through a diode only in its
direction (grounded: against it). What is given belongs to a question when it names something that does.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Set
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.lang.program import (
    ChangesOnlyWhile,
    Compare,
    Contact,
    Diode,
    Expr,
    Given,
    NumberSense,
    Output,
    Position,
    Program,
    Signal,
    SignalKind,
)
from logiccheck.lang.walk import condition_of, given_expressions, references

Item: TypeAlias = tuple[str, str]

WORLD = "world"
_LIVE, _GROUNDED = SignalKind.LIVE.value, SignalKind.GROUNDED.value


@frozen
class Matter:
    """`items` that can matter; the indices in `Program.at_first` and `Program.givens` of what is given about them."""

    items: frozenset[Item]
    at_first: frozenset[int]
    givens: frozenset[int]

    def names(self, kind: str) -> frozenset[str]:
        return frozenset(name for k, name in self.items if k == kind)


def named(exprs: Iterable[Expr]) -> set[Item]:
    """The items that these expressions name themselves."""
    found: set[Item] = set()
    for leaf in (leaf for expr in exprs for leaf in references(expr)):
        match leaf:
            case Signal():
                found.add((leaf.kind.value, leaf.name))
            case Position():
                found.add((WORLD, leaf.name))
            case Compare():
                found.add((SignalKind.SENSE.value if leaf.sense else WORLD, leaf.name))
    return found


class Names:
    """Answers what matters, for one program; each item is looked into once."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self._copper = {_LIVE: _Copper(program, True), _GROUNDED: _Copper(program, False)}
        self._sources = {s.name: s.condition for s in program.sources}
        self._grounds = {g.name: g.condition for g in program.grounds}
        self._relays = {r.name: r for r in program.relays}
        self._senses = {s.name: s for s in program.box.senses} if program.box else {}
        self._rules = {r.name: r for r in program.box.rules} if program.box else {}
        self._needs: dict[Item, set[Item]] = {}
        self._facts = [named([fact]) for fact in program.at_first]
        self._givens = [self._given(given) for given in program.givens]

    @staticmethod
    def _given(given: Given) -> set[Item]:
        own = {(WORLD, given.name)} if isinstance(given, ChangesOnlyWhile) else set()
        return own | named(given_expressions(given))

    def matter(self, exprs: Iterable[Expr]) -> Matter:
        """All that can matter to these expressions, with what is given about it."""
        items = self._close(named(exprs), set())
        facts: set[int] = set()
        givens: set[int] = set()
        while True:
            more_facts = {i for i, names in enumerate(self._facts) if i not in facts and names & items}
            more_givens = {i for i, names in enumerate(self._givens) if i not in givens and names & items}
            if not more_facts and not more_givens:
                return Matter(frozenset(items), frozenset(facts), frozenset(givens))
            facts |= more_facts
            givens |= more_givens
            for names in [self._facts[i] for i in more_facts] + [self._givens[i] for i in more_givens]:
                self._close(names, items)

    def world(self, exprs: Iterable[Expr]) -> frozenset[str]:
        """The things of the world on which these expressions themselves depend, whatever is given about them."""
        return frozenset(name for kind, name in self._close(named(exprs), set()) if kind == WORLD)

    def expressions(self, item: Item) -> list[Expr]:
        """The lines of the program that make an item what it is, as far as they may hold timers or memory."""
        kind, name = item
        box = self.program.box
        if kind == SignalKind.RELAY.value:
            return [self._relays[name].coil]
        if kind in (SignalKind.RULE.value, SignalKind.COMMAND.value):
            rule = self._rules[name]
            return [condition_of(rule)]
        if kind == SignalKind.SENSE.value:
            filter_ = self._senses[name].filter
            return [filter_] if isinstance(filter_, Expr) else []
        if kind == SignalKind.POWERED.value and box is not None and box.startup is not None:
            return [box.startup]
        return []

    def needs(self, item: Item) -> Set[Item]:
        """What an item needs at first hand."""
        if item not in self._needs:
            self._needs[item] = set(self._look(item))
        return self._needs[item]

    def copper(self, item: Item) -> Iterator[Contact | Diode]:
        """The contacts and diodes between a wire (live or grounded) and all that can arrive at it."""
        kind, name = item
        if kind not in self._copper:
            return
        between = self._copper[kind].between(name)
        yield from (each for each in self.program.contacts if {each.left, each.right} <= between)
        yield from (each for each in self.program.diodes if {each.anode, each.cathode} <= between)

    def _close(self, new: Iterable[Item], items: set[Item]) -> set[Item]:
        todo = list(new)
        while todo:
            item = todo.pop()
            if item not in items:
                items.add(item)
                todo += self.needs(item)
        return items

    def _look(self, item: Item) -> Iterator[Item]:
        """What an item needs at first hand."""
        kind, name = item
        yield from named(self.expressions(item))
        if kind in (_LIVE, _GROUNDED):
            yield from self._copper[kind].arriving(name)
        elif kind == SignalKind.SOURCE.value:
            yield from named([self._sources[name]])
        elif kind == SignalKind.GROUND.value:
            yield from named([self._grounds[name]])
        elif kind == SignalKind.RELAY.value:
            supply = self._relays[name].supply
            yield from named([supply] if supply is not None else [])
        elif kind != WORLD:
            yield from self._look_into_box(kind, name)

    def _look_into_box(self, kind: str, name: str) -> Iterator[Item]:
        box = self.program.box
        if box is None:
            return
        if kind == SignalKind.POWERED.value:
            yield (SignalKind.SOURCE.value if box.feed in self._sources else _LIVE, box.feed)
            return
        yield (SignalKind.POWERED.value, "powered")
        if kind == SignalKind.SENSE.value:
            sense = self._senses[name]
            if isinstance(sense, NumberSense):
                yield (WORLD, sense.number)
            else:
                yield self._end(sense.wire, _GROUNDED if sense.grounded else _LIVE)
        elif kind == SignalKind.OUTPUT.value:
            output = self._rules[name]
            yield (SignalKind.COMMAND.value, name)
            if isinstance(output, Output) and output.fed_by is not None:
                yield self._end(output.fed_by, _LIVE)

    def _end(self, name: str, kind: str) -> Item:
        if name in self._sources:
            return (SignalKind.SOURCE.value, name)
        return (SignalKind.GROUND.value, name) if name in self._grounds else (kind, name)


class _Copper:
    """The ways of live (forward) or grounded through the harness, without looking at whether they are closed."""

    def __init__(self, program: Program, forward: bool) -> None:
        self.kind = SignalKind.SOURCE.value if forward else SignalKind.GROUND.value
        self.origins = {s.name for s in program.sources} if forward else {g.name for g in program.grounds}
        ends = {s.name for s in program.sources} | {g.name for g in program.grounds}
        self.feeders: dict[str, list[str]] = defaultdict(list)
        for output in program.box.outputs if program.box and forward else ():
            if output.feeds is not None:
                self.feeders[output.feeds].append(output.name)
        ways: list[tuple[str, str, Expr | None]] = []
        for contact in program.contacts:
            ways.append((contact.left, contact.right, contact.condition))
            ways.append((contact.right, contact.left, contact.condition))
        for diode in program.diodes:
            tail, head = (diode.anode, diode.cathode) if forward else (diode.cathode, diode.anode)
            ways.append((tail, head, None))
        self.ways = [way for way in ways if way[1] not in ends]
        self.fed = spread(self.origins | set(self.feeders), [(tail, head) for tail, head, _ in self.ways])

    def between(self, wire: str) -> set[str]:
        """The ends on all ways by which something can arrive at a wire."""
        return self.fed & spread({wire}, [(head, tail) for tail, head, _ in self.ways])

    def arriving(self, wire: str) -> set[Item]:
        """The conditions, sources, grounds and outputs on all ways by which something can arrive at a wire."""
        between = self.between(wire)
        found = named(c for tail, head, c in self.ways if c is not None and tail in between and head in between)
        found |= {(self.kind, name) for name in between & self.origins}
        return found | {(SignalKind.OUTPUT.value, output) for name in between for output in self.feeders.get(name, ())}
