"""What never changes in a vehicle, in any situation that can be reached: never on, always on, on for an instant only.

One cause is told once. What follows from something that never changes, by its line or by its copper alone, stands
beside that. What is written as `true` or `false` is meant so, and that nothing leads to a wire the text says by itself:
nothing of these is told, nor what follows from them. A box that the key wakes finds the key on: that is not told
either, nor of a line that names nothing else; but what any other line makes of it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from enum import Enum
from functools import lru_cache
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.inside import POWERED
from logiccheck.explain.surveyed.folding import Folding, Key, stored
from logiccheck.explain.surveyed.probed import Watched, is_timer
from logiccheck.explain.surveyed.survey import Survey, even_for_an_instant
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Const,
    Edge,
    Expr,
    Impulse,
    Load,
    Not,
    Output,
    Previous,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
)
from logiccheck.lang.walk import Memory, condition_of
from logiccheck.model.interpreter import Machine
from logiccheck.model.play import first_world
from logiccheck.model.story import Story

Item: TypeAlias = Relay | Load | WireSense | Rule | Output | Memory


class Change(Enum):
    NEVER = "never"
    ALWAYS = "always"  # of the box: while it has power; of a relay: while what is live at first is live
    # true while the box has power, as is meant: a sense whose wire wakes it, what only names it, or is false in passing
    AWAKE = "awake"
    INSTANT = "instant"  # on in passing reactions, never once all has settled


@frozen
class Steady:
    """`item` is None for the power of the box. `story` shows an instant. `follow`: names that are as they are because
    of it, and `change` of those (True: always on)."""

    item: Item | None
    kind: SignalKind
    name: str
    span: Span
    change: Change
    story: Story | None = None
    follow: tuple[tuple[str, bool], ...] = ()

    @property
    def key(self) -> Key:
        match self.item:
            case Load(wire=wire):
                return self.kind, wire
            case Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous():
                return stored(self.item)
            case _:
                return self.kind, self.name

    @property
    def never(self) -> tuple[str, ...]:
        """What is never on because of it."""
        return tuple(name for name, value in self.follow if not value)

    @property
    def always(self) -> tuple[str, ...]:
        """What is always on because of it."""
        return tuple(name for name, value in self.follow if value)

    @property
    def names(self) -> tuple[str, ...]:
        """It, and what follows from it."""
        return (self.name, *(name for name, _ in self.follow))

    @property
    def value(self) -> bool:
        return self.change in (Change.ALWAYS, Change.AWAKE)


@lru_cache(maxsize=1)
def steady(survey: Survey) -> tuple[Steady, ...]:
    """What never changes, each cause once, in the order: power, senses, relays, rules and outputs, loads.

    May raise KeyboardInterrupt, or BugMet.
    """
    return tuple(_causes(survey.written, list(changeless(survey))))


@lru_cache(maxsize=1)
def changeless(survey: Survey) -> tuple[Steady, ...]:
    """All that never changes, whatever the cause. May raise KeyboardInterrupt, or BugMet."""
    found = [each for item in _items(survey.written) if (each := _look(survey, *item)) is not None]
    found += [each for watched in survey.watched if (each := _remembered(survey, watched)) is not None]
    return tuple(_as_meant(found))


def _as_meant(found: list[Steady]) -> list[Steady]:
    """The same, where a line that names nothing but what is on while the box is awake is meant to be on then, too."""
    while True:
        awake = {each.name for each in found if each.change is Change.AWAKE and not isinstance(each.item, Memory)}
        meant = [each for each in found if each.change is Change.ALWAYS and _only_names(each.item, awake)]
        if not meant:
            return found
        found = [replace(each, change=Change.AWAKE) if each in meant else each for each in found]


def _only_names(item: Item | None, names: set[str]) -> bool:
    if not isinstance(item, Rule | Output):
        return False
    line = condition_of(item)
    parts = line.parts if isinstance(line, And) else (line,)
    return all(isinstance(part, Signal) and part.name in names for part in parts)


def known(found: tuple[Steady, ...]) -> dict[Key, bool]:
    """What these say of signals, and of commands, that never change."""
    values: dict[Key, bool] = {}
    for each in found:
        values[each.key] = each.value
        if isinstance(each.item, Output) and (each.value or each.item.fed_by is None):
            values[SignalKind.COMMAND, each.name] = each.value
    return values


def live_at_first(program: Program) -> tuple[Expr, ...]:
    """The sources that are live while everything stands as it does at first: what has constant power."""
    machine = Machine(program)
    moment = machine.moment(machine.initial(), 0, first_world(program, {}, program.at_first))
    values = moment.reactions[-1].values
    named = [Signal(SignalKind.SOURCE, source.name) for source in program.sources]
    return tuple(each for each in named if values.holds(each))


def _items(program: Program) -> Iterator[tuple[Item | None, SignalKind, str, Span]]:
    box = program.box
    if box is not None:
        yield None, SignalKind.POWERED, "powered", box.span
        for sense in box.senses:
            if isinstance(sense, WireSense):
                yield sense, SignalKind.SENSE, sense.name, sense.span
    for relay in program.relays:
        yield relay, SignalKind.RELAY, relay.name, relay.span
    for rule in box.rules if box is not None else ():
        kind = SignalKind.OUTPUT if isinstance(rule, Output) else SignalKind.RULE
        yield rule, kind, rule.name, rule.span
    for load in program.loads:
        yield load, SignalKind.LIVE, load.name, load.span


def _look(survey: Survey, item: Item | None, kind: SignalKind, name: str, span: Span) -> Steady | None:
    """Nothing for what changes, and for what it is not known of."""
    on = Signal(kind, item.wire if isinstance(item, Load) else name)
    found = Steady(item, kind, name, span, Change.NEVER)
    if (ever := survey.ever(on)) is not True:
        passing = survey.passes(on) if ever is False else None
        if passing is True and kind in (SignalKind.OUTPUT, SignalKind.RELAY, SignalKind.LIVE):
            return replace(found, change=Change.INSTANT, story=survey.story(even_for_an_instant(on)))
        return found if passing is False else None
    if item is None or isinstance(item, Load):
        return None
    while_ = live_at_first(survey.written) if isinstance(item, Relay) else (POWERED,)
    off = And((*while_, Not(on)))
    if survey.ever(off) is not False:
        return None
    told = True
    if isinstance(item, WireSense):
        wire = Signal(SignalKind.GROUNDED if item.grounded else SignalKind.LIVE, item.wire)
        told = survey.ever(And((*live_at_first(survey.written), Not(wire)))) is False
    elif isinstance(item, Rule):
        told = survey.passes(off) is False and not _keeps_awake(survey.written, SignalKind.RULE, name)
    elif isinstance(item, Output):
        told = not _keeps_awake(survey.written, SignalKind.OUTPUT, name)
    return replace(found, change=Change.ALWAYS if told else Change.AWAKE)


def _keeps_awake(program: Program, kind: SignalKind, name: str) -> bool:
    """The power of the box can depend on it: that it is on is why there is power."""
    return (kind.value, name) in Names(program).matter([POWERED]).items


def _remembered(survey: Survey, watched: Watched) -> Steady | None:
    """A timer or stored state that never changes, where that is a finding of its own."""
    node = watched.node
    if isinstance(node, Edge | Previous):
        return None
    found = Steady(node, SignalKind.RULE, node.key, node.span, Change.NEVER)
    if survey.passes(watched.value) is False:
        return found
    ends = is_timer(node, TimerKind.OFF_DELAY) or is_timer(node, TimerKind.ONE_SHOT)
    ends = ends or (isinstance(node, Bistable | Impulse) and node.reset != Const(False))
    if ends and survey.ever(And((POWERED, Not(watched.value)))) is False:
        return replace(found, change=Change.ALWAYS)
    return None


# --------------------------------------------------------------------------------------------------- one cause, once


def _causes(program: Program, found: list[Steady]) -> Iterator[Steady]:
    """Those that follow from no other, each with what follows from it; of a circle the first. From what is on while the
    box is awake nothing follows, since it is not told itself."""
    causes = [each for each in found if each.change is not Change.AWAKE]
    roots = [each for each in found if not _follows(program, each, [other for other in causes if other is not each])]
    rest = [each for each in found if each not in roots]
    behind: dict[int, Steady] = {id(root): root for root in roots}
    told = [root for root in roots if root.change is not Change.AWAKE]
    while rest:
        each = next((r for r in rest if _follows(program, r, told)), None)
        if each is None:  # a circle: each follows from the others
            each = rest[0]
            roots.append(each)
            behind[id(each)] = each
        else:
            why = next((one for one in told if _follows(program, each, [one])), told[-1])
            behind[id(each)] = behind[id(why)]
        rest.remove(each)
        told.append(each)
    for root in (each for each in found if each in roots and not _not_told(program, each)):
        mine = [each for each in told if behind[id(each)] is root and each is not root]
        yield replace(root, follow=tuple((e.name, e.value) for e in mine if not isinstance(e.item, Memory)))


def _not_told(program: Program, each: Steady) -> bool:
    """Another finding tells it, the text does, or nobody need be told."""
    return (
        each.change is Change.AWAKE or isinstance(each.item, Memory) or _as_written(each.item) or _unfed(program, each)
    )


def _as_written(item: Item | None) -> bool:
    match item:
        case Rule(expr=Const()) | Output(command=Const()) | Relay(coil=Const()):
            return True
        case _:
            return False


def _unfed(program: Program, each: Steady) -> bool:
    """Nothing leads to the wire it relies on: the text alone says so, and no question is needed."""
    box = program.box
    match each.item:
        case None:
            assert box is not None
            relied = [Signal(SignalKind.LIVE, box.feed)]
        case WireSense(wire=wire, grounded=grounded):
            relied = [Signal(SignalKind.GROUNDED if grounded else SignalKind.LIVE, wire)]
        case Load(wire=wire):
            relied = [Signal(SignalKind.LIVE, wire)]
        case Output(fed_by=str(wire)):
            relied = [Signal(SignalKind.LIVE, wire)]
        case Relay(coil=coil, supply=supply):
            relied = [expr for expr in (coil, supply) if isinstance(expr, Signal)]
        case _:
            return False
    wires = {wire.name for wire in program.wires}
    states = (SignalKind.LIVE, SignalKind.GROUNDED)
    return any(s.kind in states and s.name in wires and not can_arrive(program, s.name, s.kind) for s in relied)


def _follows(program: Program, each: Steady, others: list[Steady]) -> bool:
    """Whether it is as it is because these are as they are, and would not be if one knew nothing of them."""
    if any(other.key == each.key for other in others):  # loads on one wire
        return True
    values = {key: value for key, value in known(tuple(others)).items() if key[1] != each.key[1]}
    sure: dict[Key, bool | None] = {key: value if _certain(key, value) else None for key, value in values.items()}
    by_these, alone = (_comes_to(Folding(program, this), each) for this in (sure, {}))
    return by_these == each.value and alone != each.value


def _comes_to(folding: Folding, each: Steady) -> bool | None:
    return folding.remembered(each.item) if isinstance(each.item, Memory) else folding.own(*each.key)


def _certain(key: Key, value: bool) -> bool:
    """What is always on is so only while there is power, which copper cannot rely on."""
    return not value or key[0] not in (SignalKind.OUTPUT, SignalKind.RELAY)
