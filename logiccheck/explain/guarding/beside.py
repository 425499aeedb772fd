"""A vehicle and its edited copy side by side, in one program: what can ever differ between them?

The copy has its own of whatever hangs on the edit, under names that nobody can write; all else is there once. Hands and
physics are the same for both, so what is given, which is said of the first, is said of both as long as nothing that it
names differs. A program has one box, and a timer with a tolerance may last longer in one vehicle than in the other. So
three things are there once although they hang on the edit, the *shared*: the power of the box, and each such timer of
a rule or coil that stands in both vehicles. That is exact as long as what feeds the box, and the operands of these
timers, never differ, not even for an instant; this is a question of its own (`apart`). Up to the first difference of
any of them both vehicles are what the program says.
"""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import replace
from typing import TypeAlias, TypeVar

from logiccheck.base.frozen import frozen
from logiccheck.explain.guarding.renamed import inside, once, remembers, renamed, rule_signal, second
from logiccheck.explain.guarding.touched import POWERED, Hanging, changed, touched
from logiccheck.lang.matters import WORLD, Item, named
from logiccheck.lang.program import (
    AfterLasting,
    Blink,
    Box,
    ChangesOnlyWhile,
    Const,
    Contact,
    Diode,
    Expr,
    Ground,
    NumberSense,
    Or,
    Output,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Source,
    Timer,
    WireSense,
    Xor,
)
from logiccheck.lang.rebuild import with_condition
from logiccheck.lang.walk import Leaf, condition_of, memory, references
from logiccheck.model.truth import is_filter

Owned: TypeAlias = Timer | Blink
Mark: TypeAlias = Timer | Blink  # with an operand that says nothing
End = TypeVar("End", Source, Ground)


@frozen
class Beside:
    """`visible`: each output, relay and load that hangs on the edit, by its name, with the condition that it differs;
    `powers`: what feeds the box differs; `timers`: so does the operand of a timer that is there once; `hidden`: so does
    something else that is named in what is given. `items` hang on the edit."""

    program: Program
    items: frozenset[Item]
    visible: tuple[tuple[str, Expr], ...]
    powers: Expr | None
    timers: tuple[Expr, ...]
    hidden: tuple[Expr, ...]

    @property
    def apart(self) -> Expr | None:
        """Something differs that is there once: from then on the program tells nothing."""
        return either((*((self.powers,) if self.powers is not None else ()), *self.timers))


def either(parts: tuple[Expr, ...]) -> Expr | None:
    """One of them is so; None where there is none."""
    return None if not parts else parts[0] if len(parts) == 1 else Or(parts)


def can_stand_beside(before: Program, after: Program) -> bool:
    """Whether the box is fed from the same place in both, and takes as long to start."""
    return POWERED not in changed(before, after)


def beside(before: Program, after: Program, share: bool) -> Beside:
    """Both in one program; the box is fed from the same place in both, and takes as long to start.

    `share`: timers with a tolerance are there once where they can be; else each vehicle has its own.
    """
    old, new = _varying(before), _varying(after)
    shared = frozenset(old.keys() & new.keys()) if share else frozenset[Mark]()
    while True:
        opaque = [_opaque(program, shared) for program in (before, after)]
        seeds = changed(opaque[0], opaque[1])
        items = touched(seeds, [Hanging(program) for program in opaque], lambda item: item == POWERED)
        coils = [relay.coil for relay in after.relays if (SignalKind.RELAY.value, relay.name) in items]
        kept = shared - {_mark(node) for coil in coils for node in memory(coil) if isinstance(node, Timer | Blink)}
        if kept == shared:
            return _Pair(before, after, frozenset(items), shared).built(old, new)
        shared = kept  # a coil of its own cannot hold what is there once


# ------------------------------------------------------------------------------------------------ what is there once


def _mark(node: Owned) -> Mark:
    """The timer, whatever its operand."""
    return replace(node, x=Const(True))


def _varying(program: Program) -> dict[Mark, Owned]:
    """Timers with a tolerance, of rules and coils, whose operand remembers nothing."""
    lines = [relay.coil for relay in program.relays]
    lines += [condition_of(rule) for rule in (program.box.rules if program.box is not None else ())]
    found: dict[Mark, Owned] = {}

    def look(part: Expr) -> None:
        if isinstance(part, Timer | Blink) and _varies(part) and not remembers(part.x):
            found[_mark(part)] = part

    for line in lines:
        inside(line, look)
    return found


def _varies(node: Owned) -> bool:
    if isinstance(node, Timer):
        return not is_filter(node) and node.window.lo < node.window.hi
    return node.on.lo < node.on.hi or node.off.lo < node.off.hi


def _folded(expr: Expr, shared: Set[Mark]) -> Expr:
    """The expression, in which what is there once is named."""

    def change(part: Expr) -> Expr | None:
        return rule_signal(part.key) if isinstance(part, Timer | Blink) and _mark(part) in shared else None

    return inside(expr, change) if shared else expr


def _opaque(program: Program, shared: Set[Mark]) -> Program:
    """The program, in which nothing hangs on what is there once."""
    if not shared:
        return program
    relays = tuple(replace(relay, coil=_folded(relay.coil, shared)) for relay in program.relays)
    box = program.box
    if box is not None:
        box = replace(box, rules=tuple(with_condition(rule, _folded(condition_of(rule), shared)) for rule in box.rules))
    return replace(program, relays=relays, box=box)


# -------------------------------------------------------------------------------------------------- one program of two


@frozen
class _Pair:
    """`items` hang on the edit; `shared` timers are there once."""

    before: Program
    after: Program
    items: frozenset[Item]
    shared: frozenset[Mark]

    @property
    def own(self) -> frozenset[str]:
        """The names of which the copy has its own."""
        return frozenset(name for kind, name in self.items if kind != WORLD and (kind, name) != POWERED)

    def has(self, kind: SignalKind, name: str) -> bool:
        return (kind.value, name) in self.items

    def built(self, old: dict[Mark, Owned], new: dict[Mark, Owned]) -> Beside:
        visible = tuple(self._visible())
        operands = ((old[mark].x, renamed(new[mark].x, self.own)) for mark in self.shared)
        timers = tuple(Xor(x, other) for x, other in operands if x != other)
        return Beside(self._program(), self.items, visible, self._powers(), timers, tuple(self._hidden()))

    def _program(self) -> Program:
        one, own = self.before, self.own
        copied = self.after
        return replace(
            one,
            sources=one.sources + tuple(self._end(each) for each in copied.sources if each.name in own),
            grounds=one.grounds + tuple(self._end(each) for each in copied.grounds if each.name in own),
            wires=one.wires + tuple(replace(each, name=second(each.name)) for each in copied.wires if each.name in own),
            contacts=one.contacts + tuple(self._contacts()),
            diodes=one.diodes + tuple(self._diodes()),
            relays=one.relays + tuple(self._relay(each) for each in copied.relays if each.name in own),
            box=self._box(),
            requirements=(),
            scenarios=(),
        )

    def _name(self, name: str) -> str:
        return second(name) if name in self.own else name

    def _end(self, end: End) -> End:
        return replace(end, name=second(end.name), condition=renamed(end.condition, self.own))

    def _contacts(self) -> Iterator[Contact]:
        wires = {wire.name for wire in self.after.wires} & self.own
        for each in self.after.contacts:
            if {each.left, each.right} & wires:
                left, right = self._name(each.left), self._name(each.right)
                yield replace(each, left=left, right=right, condition=renamed(each.condition, self.own))

    def _diodes(self) -> Iterator[Diode]:
        wires = {wire.name for wire in self.after.wires} & self.own
        for each in self.after.diodes:
            if {each.anode, each.cathode} & wires:
                yield replace(each, anode=self._name(each.anode), cathode=self._name(each.cathode))

    def _relay(self, relay: Relay) -> Relay:
        supply = renamed(relay.supply, self.own) if relay.supply is not None else None
        return replace(relay, name=second(relay.name), coil=renamed(relay.coil, self.own), supply=supply)

    # ------------------------------------------------------------------------------------------------------- the box

    def _box(self) -> Box | None:
        box, other = self.before.box, self.after.box
        if box is None or other is None:
            return box
        senses = tuple(self._sense(sense) for sense in other.senses if self.has(SignalKind.SENSE, sense.name))
        rules = (*self._first(box), *(copy for rule in other.rules for copy in self._copies(rule)))
        return replace(box, senses=box.senses + senses, rules=rules)

    def _sense(self, sense: WireSense | NumberSense) -> WireSense | NumberSense:
        if isinstance(sense, NumberSense):
            return replace(sense, name=second(sense.name))
        waits = sense.filter
        if waits is not None:
            waits = replace(waits, x=renamed(waits.x, self.own), key=second(waits.key))
        return replace(sense, name=second(sense.name), wire=self._name(sense.wire), filter=waits)

    def _first(self, box: Box) -> Iterator[Rule | Output]:
        """The rules of the first vehicle; a timer that a copied rule shares is a rule of its own, before it."""
        for rule in box.rules:
            line = condition_of(rule)
            if not self._is_copied(rule):
                yield rule
                continue
            for node in memory(line):
                if isinstance(node, Timer | Blink) and _mark(node) in self.shared:
                    yield Rule(once(node.key), "", node)
            yield with_condition(rule, _folded(line, self.shared))

    def _is_copied(self, rule: Rule | Output) -> bool:
        return self.has(SignalKind.RULE if isinstance(rule, Rule) else SignalKind.COMMAND, rule.name)

    def _copies(self, rule: Rule | Output) -> Iterator[Rule | Output]:
        """The rule as the copy has it; an output that only feeds, or is fed by, what is copied says what the first
        says."""
        copied = self._is_copied(rule)
        line = renamed(_folded(condition_of(rule), self.shared), self.own)
        if isinstance(rule, Rule):
            if copied:
                yield replace(rule, name=second(rule.name), expr=line)
            return
        feeds = rule.feeds is not None and rule.feeds in self.own
        if copied or feeds or self.has(SignalKind.OUTPUT, rule.name):
            command = line if copied else Signal(SignalKind.COMMAND, rule.name)
            fed_by = self._name(rule.fed_by) if rule.fed_by is not None else None
            wire = self._name(rule.feeds) if rule.feeds is not None and feeds else None
            yield replace(rule, name=second(rule.name), command=command, fed_by=fed_by, feeds=wire)

    # --------------------------------------------------------------------------------------------- what may differ

    def _visible(self) -> Iterator[tuple[str, Expr]]:
        box = self.before.box
        for output in box.outputs if box is not None else ():
            if self.has(SignalKind.OUTPUT, output.name):
                yield output.name, self._differ(Signal(SignalKind.OUTPUT, output.name))
        for relay in self.before.relays:
            if self.has(SignalKind.RELAY, relay.name):
                yield relay.name, self._differ(Signal(SignalKind.RELAY, relay.name))
        for load in self.before.loads:
            if self.has(SignalKind.LIVE, load.wire):
                yield load.name, self._differ(Signal(SignalKind.LIVE, load.wire))

    def _powers(self) -> Expr | None:
        """What feeds the box."""
        box = self.before.box
        if box is None:
            return None
        kind = SignalKind.SOURCE if any(each.name == box.feed for each in self.before.sources) else SignalKind.LIVE
        return self._differ(Signal(kind, box.feed)) if self.has(kind, box.feed) else None

    def _hidden(self) -> Iterator[Expr]:
        twice = self.items - {POWERED}  # whether the power of the box can differ is asked of what feeds it
        for given in self.before.givens:
            if isinstance(given, ChangesOnlyWhile | AfterLasting):
                said = given.y if isinstance(given, ChangesOnlyWhile) else given.p
                yield from (self._differ(leaf) for leaf in references(said) if not named([leaf]).isdisjoint(twice))

    def _differ(self, leaf: Leaf) -> Expr:
        return Xor(leaf, replace(leaf, name=second(leaf.name)))
