"""Why a signal is as it is at an instant: the lines behind it, nearest first, each with the terms that decide it.

Rules, relays and outputs that decide are followed into their own lines, a wire into what reaches it or fails to, an
output without power into the supply of the box.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import TypeAlias, assert_never

from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.deciding import deciding, each_leaf, leaves
from logiccheck.explain.wiring import Joint, missed, reached
from logiccheck.lang.program import (
    AfterLasting,
    CallsLasting,
    CallsWithin,
    ChangesOnlyWhile,
    Compare,
    Expr,
    Form,
    Ground,
    Never,
    NeverLonger,
    NumberSense,
    OnlyAfter,
    Output,
    Position,
    Possible,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Source,
    WaitsFor,
    WireSense,
)
from logiccheck.lang.walk import references
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf

FOLLOWED = {SignalKind.RULE, SignalKind.RELAY, SignalKind.OUTPUT, SignalKind.COMMAND}  # terms with lines of their own
COPPER = {SignalKind.LIVE, SignalKind.GROUNDED}

Item: TypeAlias = Rule | Output | Relay | WireSense | Source | Ground


class Why(Enum):
    """How a line makes a signal what it is."""

    TERMS = "terms"  # by what its terms are
    ALWAYS = "always"  # it names nothing that could turn it
    WIRE = "wire"  # by what lets through to a wire, or keeps it off
    NO_POWER = "no power"  # the feed of the box is dead
    STARTING = "starting"  # the box has its feed, and is still starting
    NO_SUPPLY = "no supply"  # what supplies the relay is dead
    LATE = "late"  # a contact follows its coil one reaction later
    FILTERED = "filtered"  # its filter waits whether the change lasts
    NO_FEED = "no feed"  # an output is told to be on, and what feeds it is dead


@dataclass(frozen=True, slots=True)
class Blame:
    """One line that makes signal `name` what it is: on (live, grounded, closed, good) or not.

    `marked`: the places of what decides, none where the line as a whole does (`line`). `single`: each of the `terms`
    alone decides, else they do only together. `other`: the wire or source behind it, where one is to be named.
    `joints`: over which closed ways a wire hangs on others that are dead, too.
    """

    why: Why
    name: str
    on: bool
    line: Span
    marked: tuple[Span, ...] = ()
    terms: tuple[Leaf, ...] = ()
    single: bool = True
    item: Item | None = None
    ground: bool = False  # of a wire: whether it is grounded is the question, not whether it is live
    other: str = ""
    joints: tuple[Joint, ...] = ()


Found: TypeAlias = tuple[Blame | None, tuple[Signal, ...]]  # the line, and whose lines to look at next


def blamed(form: Form) -> tuple[Expr, ...]:
    """The parts of a requirement whose values at the end of its story are what went wrong, the chief one first."""
    match form:
        case Never(p=p, r=r) | NeverLonger(p=p, r=r):
            return (p,) if r is None else (p, r)
        case CallsWithin(q=q) | CallsLasting(q=q) | OnlyAfter(q=q) | WaitsFor(q=q):
            return (q,)
        case Possible():
            return ()
        case _:
            assert_never(form)


def broken(form: Form, values: Values) -> tuple[Signal, ...]:
    """The signals in those parts that are as they must not be in these values, and because of which they are so: each
    of them is needed, or the one is enough."""
    for expr in blamed(form):
        if signals := _first(expr, (values,)):
            single = not _remembers(expr) and deciding(expr, (values,)).single
            true = [signal for signal in signals if values.holds(signal)]
            return tuple(signals) if single else tuple(true or signals)[:1]
    return ()


def blame(program: Program, form: Form, story: Sequence[Values], most: int, widely: bool = False) -> tuple[Blame, ...]:
    """Why the blamed signals read as they do at the end of the story; at most `most` lines, the nearest first.

    `widely`: of the terms that decide a line all are followed, not only those that changed last, also through timers
    and stored states, and into the copper.
    """
    search = _Search(program, story, most, widely)
    for expr in blamed(form):
        if found := search.follow(_first(expr, story[-1:])):
            return found
    return ()


def blame_for(program: Program, expr: Expr, story: Sequence[Values], most: int) -> tuple[Blame, ...]:
    """The same, widely, for why `expr` is what it is at the end of the story."""
    return _Search(program, story, most, widely=True).follow(_first(expr, story[-1:]))


def _first(expr: Expr, story: Sequence[Values]) -> list[Signal]:
    """The signals in a part of a requirement that decide it; all of them where that part remembers or looks back."""
    found = leaves(expr) if _remembers(expr) else deciding(expr, story).terms
    return [leaf for leaf in found if isinstance(leaf, Signal)]


def _remembers(expr: Expr) -> bool:
    """The interpreter of box and relays knows nothing of what remembers, or looks back, in a requirement."""
    return any(not isinstance(leaf, Signal | Position | Compare) for leaf in leaves(expr))


@dataclass(slots=True)
class _Search:
    program: Program
    story: Sequence[Values]
    most: int
    widely: bool
    items: dict[str, Item] = field(init=False)

    def __post_init__(self) -> None:
        box = self.program.box
        items: list[Item] = [*self.program.sources, *self.program.grounds, *self.program.relays]
        if box is not None:
            items += [sense for sense in box.senses if isinstance(sense, WireSense)]
            items += box.rules
        self.items = {item.name: item for item in items}

    @property
    def values(self) -> Values:
        return self.story[-1]

    def follow(self, signals: list[Signal]) -> tuple[Blame, ...]:
        """The lines behind these signals, and behind what is behind them."""
        found: list[Blame] = []
        seen: set[tuple[str, bool]] = set()
        waiting = list(signals)
        while waiting and len(found) < self.most:
            signal = waiting.pop(0)
            this = signal.name, signal.kind is SignalKind.GROUNDED
            if this in seen:
                continue
            seen.add(this)
            line, behind = self._look(signal)
            found += [line] if line is not None else []
            waiting = [*waiting, *behind] if self.widely else [*behind, *waiting]
        return tuple(found)

    def _look(self, signal: Signal) -> Found:
        if signal.kind in COPPER:
            return self._wire(signal)
        if signal.kind is SignalKind.POWERED:
            return (None, ()) if self.values.holds(signal) else self._without_power(signal.name)
        match self.items.get(signal.name):
            case Source(condition=condition) | Ground(condition=condition) as end:
                return self._terms(end, condition, self.values.holds(signal), NOWHERE)
            case Relay() as relay:
                return self._relay(relay, self.values.holds(signal))
            case WireSense() as sense:
                return self._sense(sense, self.values.holds(signal))
            case Rule() | Output() as rule:
                return self._conclusion(rule, signal)
            case None:
                return None, ()
            case other:
                assert_never(other)

    def _wire(self, signal: Signal) -> Found:
        on, ground = self.values.holds(signal), signal.kind is SignalKind.GROUNDED
        ways = (reached if on else missed)(self.program, signal, self.values)
        terms = [leaf for condition in ways.conditions for leaf in leaves(condition)]
        behind = (*self._onward(terms), *ways.behind)
        if all(span == NOWHERE for span in ways.marked):
            return None, behind
        line = Blame(Why.WIRE, signal.name, on, NOWHERE, ways.marked, tuple(terms), ground=ground, joints=ways.joints)
        return line, behind

    def _feed(self) -> Signal:
        """What powers the box."""
        assert self.program.box is not None
        name = self.program.box.feed
        return Signal(SignalKind.SOURCE if isinstance(self.items.get(name), Source) else SignalKind.LIVE, name)

    def _without_power(self, name: str) -> Found:
        feed = self._feed()
        if self.values.holds(feed):
            box = self.program.box
            line = box.startup.span if box and box.startup else NOWHERE
            return Blame(Why.STARTING, name, False, line), ()
        return Blame(Why.NO_POWER, name, False, NOWHERE, other=feed.name), (feed,)

    def _relay(self, relay: Relay, closed: bool) -> Found:
        supplied = relay.supply is None or self.values.holds(relay.supply)
        coil = self.values.holds(relay.coil)
        if closed != (supplied and coil):
            return Blame(Why.LATE, relay.name, closed, relay.coil.span, item=relay), ()
        if not supplied and relay.supply is not None:
            line = Blame(Why.NO_SUPPLY, relay.name, False, relay.supply.span, item=relay)
            return line, tuple(_signals(relay.supply))
        return self._terms(relay, relay.coil, coil, relay.span)

    def _sense(self, sense: WireSense, on: bool) -> Found:
        if not on and (SignalKind.POWERED, "powered") not in self.values.true:
            return self._without_power(sense.name)
        wire = Signal(SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE, sense.wire)
        if sense.wire in self.items and not sense.grounded:
            wire = Signal(SignalKind.SOURCE, sense.wire)
        if self.values.holds(wire) != on:
            return Blame(Why.FILTERED, sense.name, on, sense.span, item=sense), ()
        return None, (wire,)

    def _conclusion(self, item: Rule | Output, signal: Signal) -> Found:
        on = self.values.holds(signal)
        if not on and (SignalKind.POWERED, "powered") not in self.values.true:
            return self._without_power(item.name)
        if isinstance(item, Rule):
            return self._terms(item, item.expr, on, item.span)
        command = self.values.holds(Signal(SignalKind.COMMAND, item.name))
        if command and not on and item.fed_by is not None:
            behind = Signal(SignalKind.LIVE, item.fed_by)
            return Blame(Why.NO_FEED, item.name, False, item.span, item=item, other=item.fed_by), (behind,)
        return self._terms(item, item.command, on, item.span)

    def _terms(self, item: Item, expr: Expr, on: bool, line: Span) -> Found:
        """`line` is shown where no term decides; nowhere: nothing is to be said then."""
        found = deciding(expr, self.story, latest=not self.widely)
        if not found.terms:
            return (Blame(Why.ALWAYS, item.name, on, line, item=item) if line != NOWHERE else None), ()
        marked = tuple(_spans(expr, found.terms))
        return Blame(Why.TERMS, item.name, on, line, marked, found.terms, found.single, item), self._onward(found.terms)

    def _onward(self, terms: Iterable[Leaf]) -> tuple[Signal, ...]:
        signals = [term for term in terms if isinstance(term, Signal)]
        if not self.widely:
            return tuple(signal for signal in signals if signal.kind in FOLLOWED)
        inside = [leaf for term in terms for leaf in references(term)]
        tied = [leaf for name in dict.fromkeys(leaf.name for leaf in inside) for leaf in self._tied(name)]
        return tuple(dict.fromkeys(leaf for leaf in (*signals, *inside, *tied) if isinstance(leaf, Signal)))

    def _tied(self, name: str) -> Iterator[Leaf]:
        """What lets hands and physics move a thing of the world, or a number that is sensed, by what is given."""
        box = self.program.box
        sensed = {each.name: each.number for each in (box.senses if box else ()) if isinstance(each, NumberSense)}
        for given in self.program.givens:
            if isinstance(given, ChangesOnlyWhile) and given.name == name:
                yield from references(given.y)
            elif isinstance(given, AfterLasting) and sensed.get(name, name) in [x.name for x in references(given.c)]:
                yield from references(given.p)


def _signals(expr: Expr) -> Iterator[Signal]:
    return (leaf for leaf in leaves(expr) if isinstance(leaf, Signal))


def _spans(expr: Expr, marked: Iterable[Leaf]) -> list[Span]:
    """Every place in `expr` at which one of the marked terms is written."""
    wanted = set(marked)
    return [leaf.span for leaf in each_leaf(expr) if leaf in wanted]
