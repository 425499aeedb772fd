"""What an edit can touch: all that hangs, by names, on what it changed.

An *item* is a thing of the vehicle by kind and name, as in `lang/matters.py`. A timer with a tolerance that stands in
both vehicles may be taken as one and the same in both (`same`): then nothing hangs on it.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from itertools import chain

from logiccheck.lang.matters import Item, Names
from logiccheck.lang.program import Contact, Diode, Output, Program, Rule, SignalKind

LIVE, GROUNDED = SignalKind.LIVE.value, SignalKind.GROUNDED.value
POWERED: Item = (SignalKind.POWERED.value, "powered")


def changed(before: Program, after: Program) -> set[Item]:
    """What has another line in one vehicle than in the other; where its ends are, for what joins wires."""
    old, new = _definitions(before), _definitions(after)
    found = {item for item in old.keys() | new.keys() if old.get(item) != new.get(item)}
    joined: Counter[Contact | Diode] = Counter((*before.contacts, *before.diodes))
    joined.subtract(Counter((*after.contacts, *after.diodes)))
    wires = {wire.name for program in (before, after) for wire in program.wires}
    for each in (each for each, count in joined.items() if count):
        ends = (each.left, each.right) if isinstance(each, Contact) else (each.anode, each.cathode)
        found |= {(kind, end) for end in ends if end in wires for kind in (LIVE, GROUNDED)}
    return found


def _definitions(program: Program) -> dict[Item, object]:
    """What makes each item what it is, in its own line; places in the text are no part of it."""
    found: dict[Item, object] = {}
    for source in program.sources:
        found[SignalKind.SOURCE.value, source.name] = source.condition
    for ground in program.grounds:
        found[SignalKind.GROUND.value, ground.name] = ground.condition
    for relay in program.relays:
        found[SignalKind.RELAY.value, relay.name] = (relay.coil, relay.supply)
    box = program.box
    if box is None:
        return found
    found[POWERED] = (box.feed, box.startup)
    for sense in box.senses:
        found[SignalKind.SENSE.value, sense.name] = sense
    for rule in box.rules:
        if isinstance(rule, Rule):
            found[SignalKind.RULE.value, rule.name] = rule.expr
        else:
            found[SignalKind.COMMAND.value, rule.name] = rule.command
            found[SignalKind.OUTPUT.value, rule.name] = rule.fed_by
            if rule.feeds is not None:
                found["feeds", rule.name] = rule.feeds
    return found


class Hanging:
    """What hangs on what at first hand, in one program."""

    def __init__(self, program: Program) -> None:
        names = Names(program)
        self.on: dict[Item, set[Item]] = defaultdict(set)
        for item in _items(program):
            for need in names.needs(item):
                self.on[need].add(item)
        wires = {wire.name for wire in program.wires}
        for kind, tail, head in _ways(program):
            if head in wires:
                self.on[kind, tail].add((kind, head))


def touched(seeds: Iterable[Item], hanging: Iterable[Hanging], ends: Callable[[Item], bool]) -> set[Item]:
    """The seeds, and all that hangs on them in one of the programs; what `ends` holds of is reached and not passed."""
    known = tuple(hanging)
    found: set[Item] = set()
    waiting = list(seeds)
    while waiting:
        item = waiting.pop()
        if item in found:
            continue
        found.add(item)
        if not ends(item):
            waiting += chain.from_iterable(each.on.get(item, ()) for each in known)
    return found


def _items(program: Program) -> Iterator[Item]:
    for wire in program.wires:
        yield LIVE, wire.name
        yield GROUNDED, wire.name
    for source in program.sources:
        yield SignalKind.SOURCE.value, source.name
    for ground in program.grounds:
        yield SignalKind.GROUND.value, ground.name
    for relay in program.relays:
        yield SignalKind.RELAY.value, relay.name
    if program.box is None:
        return
    yield POWERED
    for sense in program.box.senses:
        yield SignalKind.SENSE.value, sense.name
    for rule in program.box.rules:
        if isinstance(rule, Output):
            yield SignalKind.COMMAND.value, rule.name
            yield SignalKind.OUTPUT.value, rule.name
        else:
            yield SignalKind.RULE.value, rule.name


def _ways(program: Program) -> Iterator[tuple[str, str, str]]:
    """What can pass from one end to another: of which kind, from where, to where."""
    for contact in program.contacts:
        for kind in (LIVE, GROUNDED):
            yield kind, contact.left, contact.right
            yield kind, contact.right, contact.left
    for diode in program.diodes:
        yield LIVE, diode.anode, diode.cathode
        yield GROUNDED, diode.cathode, diode.anode
