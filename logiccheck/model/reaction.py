"""One reaction: harness, box, senses, rules and outputs, in this order, evaluated from the resolved program itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import repeat
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Box,
    Compare,
    Expr,
    Impulse,
    NumberSense,
    Output,
    Position,
    Previous,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Timer,
    Window,
    WireSense,
)
from logiccheck.lang.walk import condition_of
from logiccheck.model.copper import grounded_wires, live_wires
from logiccheck.model.memory import Draft, Memory
from logiccheck.model.truth import (
    Leaf,
    Node,
    all_nodes,
    compare,
    expressions_of,
    is_filter,
    remembering,
    subexpressions,
    truth,
)

World: TypeAlias = Mapping[str, int | Fraction]  # a switch has the index of its position, a number its value


@dataclass(slots=True)
class Values:
    """All values of one reaction, as far as they are worked out; nobody changes them once it is finished."""

    world: World
    known: frozenset[str]  # keys of all nodes of box and relays
    true: set[tuple[SignalKind, str]] = field(default_factory=set)  # the signals that are true
    nodes: set[str] = field(default_factory=set)  # keys of the remembering nodes that are true
    numbers: dict[str, int | Fraction] = field(default_factory=dict)  # of number senses; none while the box sleeps

    def holds(self, expr: Expr) -> bool:
        return self._leaf(expr) if isinstance(expr, Signal) else truth(expr, self._leaf)

    def _leaf(self, leaf: Leaf) -> bool:
        match leaf:
            case Signal():
                return (leaf.kind, leaf.name) in self.true
            case Position(name=name, indices=indices):
                return self.world[name] in indices
            case Compare(name=name, op=op, bound=bound):
                numbers = self.numbers if leaf.sense else self.world
                return name in numbers and compare(numbers[name], op, bound)
            case _:
                if leaf.key not in self.known:
                    raise LookupError(f"{leaf.key} is remembered neither by the box nor by a relay")
                return leaf.key in self.nodes

    def live(self, end: str) -> bool:
        """A wire is live, or a source."""
        return (SignalKind.LIVE, end) in self.true or (SignalKind.SOURCE, end) in self.true

    def note(self, kind: SignalKind, names: Iterable[str]) -> None:
        self.true.update(zip(repeat(kind), names))

    def named(self, kind: SignalKind) -> frozenset[str]:
        """The names that are true as this kind."""
        return frozenset(name for k, name in self.true if k is kind)


@frozen
class Reaction:
    """A finished reaction: its values, and the memory it leaves for the next."""

    values: Values
    memory: Memory

    def holds(self, expr: Expr) -> bool:
        """The truth in this reaction of an expression; nodes in it that remember are those of the box and of relays.

        Raises `LookupError` for a node written in a requirement or an assumption: its value depends on the past.
        """
        return self.values.holds(expr)

    def is_true(self, kind: SignalKind, name: str) -> bool:
        return (kind, name) in self.values.true

    @property
    def contacts(self) -> frozenset[str]:
        """The relays whose contact is closed in this reaction (`memory.coils`: in the next)."""
        return self.values.named(SignalKind.RELAY)


class Reactor:
    """Makes reactions of one program; `windows` holds the duration of every timer of box and relays, by key."""

    def __init__(self, program: Program) -> None:
        self.program = program
        box = program.box
        rules = box.rules if box else ()
        commands = [condition_of(rule) for rule in rules]
        self._wires = frozenset(wire.name for wire in program.wires)
        self._feeding = [(output.name, output.feeds) for output in (box.outputs if box else ()) if output.feeds]
        self._coils = tuple((relay, remembering(relay.coil)) for relay in program.relays)
        self._rules = tuple((rule, condition_of(rule), remembering(condition_of(rule))) for rule in rules)
        self._previous = tuple((node, remembering(node.x)) for node in _previous(commands))
        self._filters = _filters(program)
        boxed = all_nodes(commands)
        self._retained = frozenset(node.key for node in boxed if isinstance(node, Bistable | Impulse) and node.retained)
        nodes = [*all_nodes(relay.coil for relay in program.relays), *self._filters.values(), *boxed]
        if box and box.startup:
            nodes.append(box.startup)
        self._known = frozenset(node.key for node in nodes)
        self.windows = {key: window for node in nodes for key, window in _windows(node)}

    def react(self, before: Memory, world: World, due: frozenset[str]) -> Reaction:
        """The reaction to this world from this memory, in which the timers `due` (running ones) fall due."""
        values, draft = Values(world, self._known), Draft(before, due)
        self._copper(values, before)
        coils = frozenset(relay.name for relay, nodes in self._coils if _coil(relay, nodes, values, draft))
        values.true -= {(SignalKind.OUTPUT, name) for name in before.outputs}
        if self.program.box:
            self._box(self.program.box, values, draft)
        memory = Memory(
            coils,
            values.named(SignalKind.OUTPUT),
            (SignalKind.POWERED, "powered") in values.true,
            frozenset(draft.operands),
            frozenset(draft.bits),
            frozenset(draft.clocks.items()),
        )
        return Reaction(values, memory)

    def _copper(self, values: Values, before: Memory) -> None:
        """Contacts as the coils were, outputs as they were; then what follows at once: sources, grounds, wires."""
        program = self.program
        values.note(SignalKind.RELAY, before.coils)
        values.note(SignalKind.OUTPUT, before.outputs)
        sources = [source.name for source in program.sources if values.holds(source.condition)]
        grounds = [ground.name for ground in program.grounds if values.holds(ground.condition)]
        closed = [contact for contact in program.contacts if values.holds(contact.condition)]
        fed = [wire for name, wire in self._feeding if name in before.outputs]
        values.note(SignalKind.SOURCE, sources)
        values.note(SignalKind.GROUND, grounds)
        values.note(SignalKind.LIVE, live_wires(sources + fed, closed, program.diodes, self._wires))
        values.note(SignalKind.GROUNDED, grounded_wires(grounds, closed, program.diodes, self._wires))

    def _box(self, box: Box, values: Values, draft: Draft) -> None:
        """Power, senses, rules and outputs. Without power all of it reads false and only what is retained is kept."""
        powered = values.live(box.feed)
        if box.startup:
            powered = _move(box.startup, values, draft)
        if not powered:
            draft.bits |= self._retained & draft.before.bits
            return
        values.note(SignalKind.POWERED, ["powered"])
        self._senses(box, values, draft)
        values.nodes |= {node.key for node, _ in self._previous if node.key in draft.before.operands}
        for rule, command, nodes in self._rules:
            for node in nodes:
                _move(node, values, draft)
            if values.holds(command):
                _conclude(rule, values)
        for node, inner in self._previous:
            for part in inner:
                _move(part, values, draft)
            _move(node, values, draft)

    def _senses(self, box: Box, values: Values, draft: Draft) -> None:
        for sense in box.senses:
            if isinstance(sense, NumberSense):
                values.numbers[sense.name] = values.world[sense.number]
        for node in self._filters.values():
            _move(node, values, draft)
        for sense in box.senses:
            if isinstance(sense, WireSense) and _sensed(sense, values):
                values.true.add((SignalKind.SENSE, sense.name))


def _coil(relay: Relay, nodes: tuple[Node, ...], values: Values, draft: Draft) -> bool:
    """Without supply the coil is off, and what its nodes do not write is forgotten."""
    if relay.supply is not None and not values.holds(relay.supply):
        return False
    for node in nodes:
        _move(node, values, draft)
    return values.holds(relay.coil)


def _sensed(sense: WireSense, values: Values) -> bool:
    if sense.filter:
        return values.holds(sense.filter)
    return (SignalKind.GROUNDED, sense.wire) in values.true if sense.grounded else values.live(sense.wire)


def _conclude(rule: Rule | Output, values: Values) -> None:
    """A rule is true; or an output is commanded, and true itself if its feed is live in this reaction."""
    if isinstance(rule, Rule):
        values.true.add((SignalKind.RULE, rule.name))
        return
    values.true.add((SignalKind.COMMAND, rule.name))
    if rule.fed_by is None or values.live(rule.fed_by):
        values.true.add((SignalKind.OUTPUT, rule.name))


def _move(node: Node, values: Values, draft: Draft) -> bool:
    value = draft.move(node, values.holds)
    if value:
        values.nodes.add(node.key)
    return value


def _windows(node: Node) -> Iterator[tuple[str, Window]]:
    if isinstance(node, Timer):
        yield node.key, node.window
    elif isinstance(node, Blink):
        yield node.key + ".on", node.on
        yield node.key + ".off", node.off


def _previous(commands: Iterable[Expr]) -> Iterator[Previous]:
    return (node for node in all_nodes(commands) if isinstance(node, Previous))


def _filters(program: Program) -> dict[str, Timer]:
    """The filters of senses by key; those on comparisons of number senses stand wherever a comparison is written."""
    senses = program.box.senses if program.box else ()
    rules = program.box.rules if program.box else ()
    roots: list[Expr] = [sense.filter for sense in senses if isinstance(sense, WireSense) and sense.filter]
    roots += [condition_of(rule) for rule in rules]
    for item in (*program.givens, *(r.form for r in program.requirements)):
        roots += expressions_of(item)
    roots += [expectation.p for scenario in program.scenarios for expectation in scenario.expectations]
    return {part.key: part for root in roots for part in subexpressions(root) if is_filter(part)}
