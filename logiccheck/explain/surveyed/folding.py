"""What a condition comes to where something in it never changes: true, false, or neither by that alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    NumberSense,
    Or,
    Previous,
    Program,
    Rule,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
    Xor,
)
from logiccheck.lang.walk import Memory

Key: TypeAlias = tuple[SignalKind, str]


def stored(node: Memory) -> Key:
    """The key of what something remembers, which is no name."""
    return SignalKind.RULE, f"inside {node.key}"


COPPER = (SignalKind.SOURCE, SignalKind.GROUND, SignalKind.LIVE, SignalKind.GROUNDED)


def connected(expr: Expr, leaf: Callable[[Expr], bool | None]) -> bool | None:
    """What the connectives make of their leaves, each of which is true, false or unknown; memory is a leaf."""
    match expr:
        case Const(value=value):
            return value
        case Not(x=x):
            inner = connected(x, leaf)
            return None if inner is None else not inner
        case And(parts=parts):
            return _all([connected(part, leaf) for part in parts])
        case Or(parts=parts):
            found = _all([_not(connected(part, leaf)) for part in parts])
            return _not(found)
        case Xor(left=left, right=right):
            one, two = connected(left, leaf), connected(right, leaf)
            return None if one is None or two is None else one != two
        case AtMostOne(parts=parts):
            values = [connected(part, leaf) for part in parts]
            if values.count(True) > 1:
                return False
            return True if values.count(True) + values.count(None) <= 1 else None
        case _:
            return leaf(expr)


def _not(value: bool | None) -> bool | None:
    return None if value is None else not value


def _all(values: list[bool | None]) -> bool | None:
    if False in values:
        return False
    return None if None in values else True


@dataclass(slots=True)
class Folding:
    """Follows lines and copper; `known` says of some signals what they always are, those of the box while it has power,
    or that it is not known (None). Of nothing else that has a line, but of copper, is more known than that."""

    program: Program
    known: Mapping[Key, bool | None]
    _copper: dict[Key, bool | None] = field(default_factory=dict)

    def value(self, expr: Expr) -> bool | None:
        """True or false where what is known decides it."""
        return connected(expr, self._leaf)

    def _leaf(self, leaf: Expr) -> bool | None:
        if isinstance(leaf, Memory) and stored(leaf) in self.known:
            return self.known[stored(leaf)]
        return self.remembered(leaf)

    def remembered(self, leaf: Expr) -> bool | None:
        """What a leaf comes to by what it names, or looks at; whatever is known of itself, where it remembers."""
        match leaf:
            case Signal():
                return self._signal(leaf.kind, leaf.name)
            case Timer(kind=TimerKind.OFF_DELAY, x=x) if self.value(x) is True:
                return True
            case Timer(kind=TimerKind.FILTER | TimerKind.ON_DELAY | TimerKind.OFF_DELAY | TimerKind.ONE_SHOT, x=x):
                return self._stays_false(x)
            case Blink(x=x) | Previous(x=x) | Impulse(x=x):
                return self._stays_false(x)
            case Edge(rising=rising, x=x):
                value = self.value(x)
                return False if value is False or (value is True and not rising) else None
            case Bistable(set=set_, reset=reset):
                return self._stored(self.value(set_), self.value(reset), leaf.set_wins)
            case _:
                return None

    def _stays_false(self, x: Expr) -> bool | None:
        return False if self.value(x) is False else None

    @staticmethod
    def _stored(set_: bool | None, reset: bool | None, set_wins: bool) -> bool | None:
        if set_ is False or (reset is True and not set_wins):
            return False
        return True if set_ is True and (reset is False or set_wins) else None

    def _signal(self, kind: SignalKind, name: str) -> bool | None:
        key = (kind, name)
        if key not in self.known and kind in COPPER and key not in self._copper:
            self._copper[key] = None  # a circle of wires decides nothing
            self._copper[key] = self.own(kind, name)
        return self.known.get(key, self._copper.get(key))

    def own(self, kind: SignalKind, name: str) -> bool | None:
        """What a signal comes to by its own line, or its own copper, whatever is known of itself."""
        program = self.program
        match kind:
            case SignalKind.SOURCE:
                return self.value(next(each.condition for each in program.sources if each.name == name))
            case SignalKind.GROUND:
                return self.value(next(each.condition for each in program.grounds if each.name == name))
            case SignalKind.LIVE | SignalKind.GROUNDED:
                return self._wire(name, kind)
            case SignalKind.RELAY:
                relay = next(each for each in program.relays if each.name == name)
                return _all([True if relay.supply is None else self.value(relay.supply), self.value(relay.coil)])
            case _:
                return self._of_box(kind, name)

    def _of_box(self, kind: SignalKind, name: str) -> bool | None:
        box = self.program.box
        assert box is not None
        if kind is SignalKind.POWERED:
            return False if self._end(box.feed, SignalKind.LIVE) is False else None
        if self._signal(SignalKind.POWERED, "powered") is False:
            return False
        if kind is SignalKind.SENSE:
            return self._sense(next(each for each in box.senses if each.name == name))
        rule = next(each for each in box.rules if each.name == name)
        if isinstance(rule, Rule):
            return self.value(rule.expr)
        fed = True if rule.fed_by is None else self._end(rule.fed_by, SignalKind.LIVE)
        return self.value(rule.command) if kind is SignalKind.COMMAND else _all([self.value(rule.command), fed])

    def _sense(self, sense: WireSense | NumberSense) -> bool | None:
        if isinstance(sense, NumberSense):
            return None
        wire = self._end(sense.wire, SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE)
        return wire if sense.filter is None or wire is False else None

    # ----------------------------------------------------------------------------------------------- copper

    def _end(self, name: str, kind: SignalKind) -> bool | None:
        if any(each.name == name for each in self.program.sources):
            return self._signal(SignalKind.SOURCE, name)
        if any(each.name == name for each in self.program.grounds):
            return self._signal(SignalKind.GROUND, name)
        return self._signal(kind, name)

    def _wire(self, wire: str, kind: SignalKind) -> bool | None:
        """False where no way leads to the wire, true where one is always closed."""
        if wire not in self._reached(kind, lambda value: value is not False):
            return False
        return True if wire in self._reached(kind, lambda value: value is True) else None

    def _reached(self, kind: SignalKind, counts: Callable[[bool | None], bool]) -> set[str]:
        program = self.program
        sources = {each.name: each.condition for each in program.sources}
        grounds = {each.name: each.condition for each in program.grounds}
        ends, stops = sources if kind is SignalKind.LIVE else grounds, sources.keys() | grounds.keys()
        found = {name for name, condition in ends.items() if counts(self.value(condition))}
        if kind is SignalKind.LIVE and program.box is not None:
            feeding = [output for output in program.box.outputs if output.feeds is not None]
            found |= {str(o.feeds) for o in feeding if counts(self._signal(SignalKind.OUTPUT, o.name))}
        ways = list(self._ways(kind, counts))
        while more := {head for tail, head in ways if tail in found and head not in found and head not in stops}:
            found |= more
        return found

    def _ways(self, kind: SignalKind, counts: Callable[[bool | None], bool]) -> Iterable[tuple[str, str]]:
        for contact in self.program.contacts:
            if counts(self.value(contact.condition)):
                yield contact.left, contact.right
                yield contact.right, contact.left
        for diode in self.program.diodes:
            yield (diode.anode, diode.cathode) if kind is SignalKind.LIVE else (diode.cathode, diode.anode)
