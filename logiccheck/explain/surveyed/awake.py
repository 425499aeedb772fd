"""When a box is awake by nothing but its own outputs, and no timer runs that could change that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from logiccheck.base.frozen import frozen
from logiccheck.explain.surveyed.probed import Watched
from logiccheck.explain.surveyed.waking import POWERED, end, fed
from logiccheck.explain.written_out import TooLarge, unfolded
from logiccheck.lang.matters import Item, Names
from logiccheck.lang.program import (
    AfterLasting,
    And,
    Blink,
    ChangesOnlyWhile,
    Const,
    Excluded,
    Expr,
    LastsAtLeast,
    LastsAtMost,
    Not,
    NumberSense,
    Or,
    Output,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
    Xor,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import Memory, condition_of, memory, subexpressions
from logiccheck.model.truth import is_filter

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class OwnDoing:
    """`condition`: the box has power, would have none if all its outputs were off, as long as no hand moves nothing on
    which that depends can change, and nothing given makes one move. `outputs`: those that can have a part in it."""

    condition: Expr
    outputs: tuple[str, ...]


class Unclear(Exception):
    """Something on which the power of the box depends cannot be seen from outside."""


def own_doing(program: Program, survey: Survey) -> OwnDoing | None:
    """None where no output can feed the box, or where it cannot be told whether all has come to rest."""
    feed = fed(program)
    matter = Names(program).matter([POWERED])
    itself = Names(replace(program, givens=())).matter([POWERED])
    outputs = tuple(sorted(itself.names(SignalKind.OUTPUT.value)))
    if feed is None or not outputs:
        return None
    power = _Power(program)
    try:
        otherwise = power.without_outputs(feed, ())
        rest = (*_Rest(program, survey, matter.items).conditions(), *_unforced(program, matter.givens))
    except (Unclear, TooLarge):
        return None
    return OwnDoing(And((POWERED, Not(otherwise), *rest)), outputs)


def _unforced(program: Program, givens: frozenset[int]) -> Iterator[Expr]:
    """Conditions that together say that nothing given makes a hand move as long as all else stands."""
    for number in sorted(givens):
        match program.givens[number]:
            case Excluded(p=p) | LastsAtMost(p=p) | AfterLasting(c=p) if not _stands(p):
                raise Unclear
            case LastsAtMost(p=p):
                yield Not(p)
            case AfterLasting(c=c, p=p):
                yield Or((c, Not(p))) if _stands(p) else c
            case Excluded() | LastsAtLeast() | ChangesOnlyWhile():
                pass


def _stands(expr: Expr) -> bool:
    """It is as it is until a hand moves."""
    return not any(isinstance(node, Signal | Memory) for node in subexpressions(expr))


@dataclass(slots=True)
class _Power:
    program: Program

    def without_outputs(self, on: Expr, inside: tuple[str, ...]) -> Expr:
        """What it would be with all outputs off, once the relays have followed; `inside`: relays passed on the way."""

        def change(leaf: Expr) -> Expr:
            if isinstance(leaf, Memory):
                raise Unclear
            if not isinstance(leaf, Signal):
                return leaf
            match leaf.kind:
                case SignalKind.OUTPUT:
                    return Const(False)
                case SignalKind.RELAY if leaf.name in inside:
                    return leaf
                case SignalKind.RELAY:
                    relay = next(each for each in self.program.relays if each.name == leaf.name)
                    return self._relay(relay, (*inside, leaf.name))
                case _:
                    return replace_leaves(unfolded(self.program, leaf).on, change)

        return replace_leaves(on, change)

    def _relay(self, relay: Relay, inside: tuple[str, ...]) -> Expr:
        """A relay that holds itself, or is bistable, stays as it is."""
        coil = _at_rest(relay)
        if coil is None:
            return Signal(SignalKind.RELAY, relay.name)
        parts = [self.without_outputs(coil, inside)]
        if isinstance(relay.supply, Signal):
            parts.append(self.without_outputs(relay.supply, inside))
        return And(tuple(parts))


def _at_rest(relay: Relay) -> Expr | None:
    """What the coil comes to when no timer runs; None of one that stores a state."""
    coil = relay.coil
    if isinstance(coil, Timer):
        plain, result = coil.x, Const(False) if coil.kind is TimerKind.ONE_SHOT else coil.x
    else:
        plain, result = coil, coil
    if any(True for _ in memory(plain)):
        if isinstance(coil, Memory) and not isinstance(coil, Timer):
            return None
        raise Unclear
    return result


@dataclass(slots=True)
class _Rest:
    """Conditions that together say that no timer runs on which the power of the box depends."""

    program: Program
    survey: Survey
    matter: frozenset[Item]

    def conditions(self) -> Iterator[Expr]:
        for relay in self.program.relays:
            if (SignalKind.RELAY.value, relay.name) in self.matter:
                yield from self._relay(relay)
        yield from self._box()

    def _relay(self, relay: Relay) -> Iterator[Expr]:
        coil = relay.coil
        inner = [node for node in memory(coil) if node is not coil]
        if any(isinstance(node, Timer | Blink) for node in inner):
            raise Unclear
        if isinstance(coil, Timer | Blink):
            if inner:
                raise Unclear
            yield Not(_runs(coil, Signal(SignalKind.RELAY, relay.name), coil.x))

    def _box(self) -> Iterator[Expr]:
        box = self.program.box
        assert box is not None
        mine = {name for kind, name in self.matter if kind in (SignalKind.RULE.value, SignalKind.COMMAND.value)}
        watched = {each.node.key: each for each in self.survey.watched}
        for rule in box.rules:
            if rule.name in mine:
                for node in memory(condition_of(rule)):
                    yield from self._node(rule, node, watched)
        for sense in box.senses:
            if (SignalKind.SENSE.value, sense.name) not in self.matter:
                continue
            if isinstance(sense, WireSense) and sense.filter is not None:
                wire = Signal(SignalKind.GROUNDED, sense.wire) if sense.grounded else end(self.program, sense.wire)
                yield Not(Xor(Signal(SignalKind.SENSE, sense.name), wire))
            if isinstance(sense, NumberSense) and sense.filter is not None:
                raise Unclear

    @staticmethod
    def _node(rule: Rule | Output, node: Memory, watched: dict[str, Watched]) -> Iterator[Expr]:
        if is_filter(node):
            raise Unclear
        if isinstance(node, Timer | Blink):
            if node.key not in watched:
                raise Unclear
            yield Not(_runs(node, watched[node.key].value, watched[node.key].inside))


def _runs(node: Timer | Blink, value: Expr, inside: Expr) -> Expr:
    """It runs, once all has settled; of an on-delay also where it has no supply."""
    if isinstance(node, Blink):
        return inside
    match node.kind:
        case TimerKind.ON_DELAY:
            return And((inside, Not(value)))
        case TimerKind.OFF_DELAY:
            return And((value, Not(inside)))
        case _:
            return value
