"""Why a signal is as it is at an instant: the terms of its own line that decide it, marked in the user's file.

Rules, relays and outputs that decide are followed into their own lines, a wire into what reaches it or fails to, an
output without power into the supply of the box; a few lines deep.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias, assert_never

from logiccheck.base.span import Span
from logiccheck.lang.program import (
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Ground,
    Never,
    NeverLonger,
    OnlyAfter,
    Output,
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
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf
from logiccheck.report import words_causes as words
from logiccheck.report.deciding import deciding, each_leaf, leaves
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause
from logiccheck.report.wiring import missed, reached

MOST = 4  # lines shown for one story
FOLLOWED = {SignalKind.RULE, SignalKind.RELAY, SignalKind.OUTPUT, SignalKind.COMMAND}  # terms with lines of their own
COPPER = {SignalKind.LIVE, SignalKind.GROUNDED}

Item: TypeAlias = Rule | Output | Relay | WireSense | Source | Ground
Found: TypeAlias = tuple[Cause | None, tuple[Signal, ...]]  # the cause, and whose lines to look at next


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


def causes(program: Program, form: Form, story: Sequence[Values], files: Mapping[str, str]) -> tuple[Cause, ...]:
    """Why the blamed signals read as they do at the end of the story; at most `MOST`, the nearest first."""
    search = _Search(program, story, files)
    for expr in blamed(form):
        if found := search.follow(_first(expr, story[-1:])):
            return found
    return ()


def chasing(program: Program, names: Iterable[str], files: Mapping[str, str]) -> tuple[Cause, ...]:
    """The lines of the rules and relays that chase each other for ever; at most `MOST`."""
    rules = program.box.rules if program.box else ()
    spans = {item.name: item.span for item in (*program.relays, *rules)}
    shown = [(name, excerpt([spans[name]], files)) for name in names if name in spans]
    return tuple(Cause(words.chases(name), lines) for name, lines in shown if lines is not None)[:MOST]


def _first(expr: Expr, story: Sequence[Values]) -> list[Signal]:
    """The signals in a part of a requirement that decide it; all of them where that part remembers or looks back."""
    try:
        found = deciding(expr, story).terms
    except LookupError:
        found = leaves(expr)
    return [leaf for leaf in found if isinstance(leaf, Signal)]


@dataclass(slots=True)
class _Search:
    program: Program
    story: Sequence[Values]
    files: Mapping[str, str]
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

    def follow(self, signals: list[Signal]) -> tuple[Cause, ...]:
        """The causes of these signals and of what is behind them."""
        found: list[Cause] = []
        seen: set[tuple[str, bool]] = set()
        waiting = list(signals)
        while waiting and len(found) < MOST:
            signal = waiting.pop(0)
            this = signal.name, signal.kind is SignalKind.GROUNDED
            if this in seen:
                continue
            seen.add(this)
            cause, behind = self._look(signal)
            found += [cause] if cause is not None else []
            waiting = [*behind, *waiting]
        return tuple(found)

    def _look(self, signal: Signal) -> Found:
        if signal.kind in COPPER:
            return self._wire(signal)
        if signal.kind is SignalKind.POWERED:
            return (None, ()) if self.values.holds(signal) else self._without_power(signal.name)
        match self.items.get(signal.name):
            case Source(name=name, condition=condition):
                return self._terms(name, condition, self.values.holds(signal), None, ("live", "dead"))
            case Ground(name=name, condition=condition):
                return self._terms(name, condition, self.values.holds(signal), None, ("good", "lost"))
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
        shown = excerpt(ways.marked, self.files)
        terms = [leaf for condition in ways.conditions for leaf in leaves(condition)]
        cause = Cause(words.wire(signal.name, ground, on), shown) if shown is not None else None
        return cause, (*_followed(terms), *ways.behind)

    def _feed(self) -> Signal:
        """What powers the box."""
        assert self.program.box is not None
        name = self.program.box.feed
        return Signal(SignalKind.SOURCE if isinstance(self.items.get(name), Source) else SignalKind.LIVE, name)

    def _without_power(self, name: str) -> Found:
        feed = self._feed()
        if self.values.holds(feed):
            box = self.program.box
            spans = [box.startup.span] if box and box.startup else []
            return Cause(words.not_up_yet(name), excerpt(spans, self.files)), ()
        return Cause(words.without_power(name, feed.name), None), (feed,)

    def _relay(self, relay: Relay, closed: bool) -> Found:
        supplied = relay.supply is None or self.values.holds(relay.supply)
        coil = self.values.holds(relay.coil)
        if closed != (supplied and coil):
            return Cause(words.late(relay.name, closed), excerpt([relay.coil.span], self.files)), ()
        if not supplied and relay.supply is not None:
            shown = excerpt([relay.supply.span], self.files)
            return Cause(words.without_supply(relay.name), shown), tuple(_signals(relay.supply))
        return self._terms(relay.name, relay.coil, coil, relay.span)

    def _sense(self, sense: WireSense, on: bool) -> Found:
        if not on and (SignalKind.POWERED, "powered") not in self.values.true:
            return self._without_power(sense.name)
        wire = Signal(SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE, sense.wire)
        if sense.wire in self.items and not sense.grounded:
            wire = Signal(SignalKind.SOURCE, sense.wire)
        if self.values.holds(wire) != on:
            return Cause(words.filtered(sense.name, on), excerpt([sense.span], self.files)), ()
        return None, (wire,)

    def _conclusion(self, item: Rule | Output, signal: Signal) -> Found:
        on = self.values.holds(signal)
        if not on and (SignalKind.POWERED, "powered") not in self.values.true:
            return self._without_power(item.name)
        if isinstance(item, Rule):
            return self._terms(item.name, item.expr, on, item.span)
        command = self.values.holds(Signal(SignalKind.COMMAND, item.name))
        if command and not on and item.fed_by is not None:
            behind = Signal(SignalKind.LIVE, item.fed_by)
            return Cause(words.without_feed(item.name, item.fed_by), excerpt([item.span], self.files)), (behind,)
        return self._terms(item.name, item.command, on, item.span)

    def _terms(
        self, name: str, expr: Expr, on: bool, line: Span | None, states: tuple[str, str] = ("on", "off")
    ) -> Found:
        """`line` is shown where no term decides; None: nothing is to be said then."""
        found = deciding(expr, self.story)
        if not found.terms:
            lines = excerpt([line], self.files) if line is not None else None
            return (Cause(words.always(name, on), lines) if lines is not None else None), ()
        shown = excerpt(_spans(expr, found.terms), self.files)
        state, other = states if on else states[::-1]
        return Cause(words.because(name, state, other, found.single, len(found.terms)), shown), _followed(found.terms)


def _followed(terms: Iterable[Leaf]) -> tuple[Signal, ...]:
    return tuple(term for term in terms if isinstance(term, Signal) and term.kind in FOLLOWED)


def _signals(expr: Expr) -> Iterator[Signal]:
    return (leaf for leaf in leaves(expr) if isinstance(leaf, Signal))


def _spans(expr: Expr, marked: Iterable[Leaf]) -> list[Span]:
    """Every place in `expr` at which one of the marked terms is written."""
    wanted = set(marked)
    return [leaf.span for leaf in each_leaf(expr) if leaf in wanted]
