"""The condition on one settled situation that is met by all in which a vehicle can stay as long as no hand moves.

It says that the vehicle is parked, that no timer runs which has to stop, and that nothing given makes a hand move. Of
a timer that cannot be seen from outside nothing is said: the condition may be met by more situations than can stay.
"""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.frozen import frozen
from logiccheck.copper.resting.recurring import Recurring
from logiccheck.explain.surveyed.lifted import Lifted
from logiccheck.lang.matters import Item
from logiccheck.lang.program import (
    AfterLasting,
    And,
    Blink,
    Expr,
    LastsAtMost,
    Not,
    Or,
    Program,
    Relay,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
    Xor,
)
from logiccheck.lang.walk import condition_of, memory
from logiccheck.model.truth import is_filter

POWERED = Signal(SignalKind.POWERED, "powered")


@frozen
class Blinker:
    """A blinker that may go on for ever, and hangs on nothing else that may: it runs, and it is on."""

    node: Blink
    runs: Expr
    on: Expr


@frozen
class Quiet:
    """`condition`: met by every situation that can stay. `blinkers` that may run in one. `others`: what may go on for
    ever beside these, by key."""

    condition: Expr
    blinkers: tuple[Blinker, ...]
    others: frozenset[str]


@frozen
class _Seen:
    """A timer of box or relays, the item that holds it, and, where that can be seen from outside: it runs, it is on."""

    item: Item
    node: Timer | Blink
    runs: Expr | None
    on: Expr | None


def quiet(named: Lifted, parked: Expr) -> Quiet:
    """For the vehicle in which what remembers has a name."""
    program, recurring = named.program, Recurring(named.program)
    conditions: list[Expr] = [parked]
    blinkers: list[Blinker] = []
    others: set[str] = set()
    for seen in _timers(program):
        if not recurring.may(seen.item):
            conditions += [] if seen.runs is None else [Not(seen.runs)]
        elif (
            isinstance(seen.node, Blink)
            and seen.runs is not None
            and seen.on is not None
            and recurring.alone(seen.item)
        ):
            blinkers.append(Blinker(seen.node, seen.runs, seen.on))
        else:
            others.add(seen.node.key)
    return Quiet(And((*conditions, *_unforced(program, recurring))), tuple(blinkers), frozenset(others))


def _unforced(program: Program, recurring: Recurring) -> Iterator[Expr]:
    """What is given lets the world stand still for ever."""
    for given in program.givens:
        match given:
            case LastsAtMost(p=p):
                yield Not(p)
            case AfterLasting(c=c, p=p) if not any(memory(p)) and not recurring.may_change(p):
                yield Or((c, Not(p)))
            case _:
                pass


def _timers(program: Program) -> Iterator[_Seen]:
    for relay in program.relays:
        yield from _of_relay(relay)
    box = program.box
    if box is None:
        return
    if box.startup is not None:
        item = SignalKind.POWERED.value, "powered"
        yield _Seen(item, box.startup, And((box.startup.x, Not(POWERED))), POWERED)
    for sense in box.senses:
        if isinstance(sense, WireSense) and sense.filter is not None:
            item, on = (SignalKind.SENSE.value, sense.name), Signal(SignalKind.SENSE, sense.name)
            yield _Seen(item, sense.filter, And((POWERED, Xor(on, sense.filter.x))), on)
    outputs = {output.name for output in box.outputs}
    for rule in box.rules:
        kind = SignalKind.COMMAND if rule.name in outputs else SignalKind.RULE
        yield from _of_rule((kind.value, rule.name), condition_of(rule), Signal(kind, rule.name))


def _of_relay(relay: Relay) -> Iterator[_Seen]:
    """Settled, the contact is as the coil; a timer inside a longer coil cannot be seen."""
    item, on = (SignalKind.RELAY.value, relay.name), Signal(SignalKind.RELAY, relay.name)
    supplied = () if relay.supply is None else (relay.supply,)
    for node in memory(relay.coil):
        if isinstance(node, Timer | Blink):
            plain = node is relay.coil and not any(memory(node.x))
            yield _Seen(item, node, And((*supplied, _runs(node, on))), on) if plain else _Seen(item, node, None, None)


def _of_rule(item: Item, expr: Expr, value: Signal) -> Iterator[_Seen]:
    """What remembers has a rule of its own, but for what stands inside `previous`, and filters of numbers."""
    for node in memory(expr):
        if is_filter(node):
            yield _Seen(item, node, Xor(node, node.x), node)
        elif isinstance(node, Timer | Blink):
            seen = node is expr and all(is_filter(inner) for inner in memory(node.x))
            yield (
                _Seen(item, node, And((POWERED, _runs(node, value))), value) if seen else _Seen(item, node, None, None)
            )


def _runs(node: Timer | Blink, value: Expr) -> Expr:
    """It runs, once all has settled and while it has power."""
    if isinstance(node, Blink):
        return node.x
    match node.kind:
        case TimerKind.ON_DELAY | TimerKind.FILTER:
            return Xor(node.x, value)
        case TimerKind.OFF_DELAY:
            return And((value, Not(node.x)))
        case TimerKind.ONE_SHOT:
            return value
