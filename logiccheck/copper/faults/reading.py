"""What each name reads as in a vehicle with faults: for those who look on, for copper, and for the box.

A contact that is welded, an output that is stuck on, a sense whose wire is broken: each keeps its own line in the
program, and whoever names it reads what the fault makes of it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field, fields, replace
from typing import TypeAlias, TypeVar

from logiccheck.copper.faults.parts import Fault, Mode, PartKind
from logiccheck.copper.faults.there import There
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Compare,
    Dip,
    Edge,
    Expr,
    Form,
    Given,
    Impulse,
    Not,
    NumberSense,
    Or,
    Previous,
    Program,
    Signal,
    SignalKind,
    TellTale,
    Timer,
    WireSense,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.model.truth import compare, is_filter

POWERED = Signal(SignalKind.POWERED, "powered")
UNDER_WAY = "it is under way"  # a relay that is on from the second reaction on

Named: TypeAlias = Signal | Compare
Said = TypeVar("Said", bound=Form | Given | Dip | TellTale)


def stage(output: str) -> str:
    """The wire or source that feeds an output whose stage can be off."""
    return f"stage of {output}"


def stuck(output: str) -> str:
    """The relay by which copper sees, in the reaction after, that the stage of an output is stuck on."""
    return f"{output} stuck"


def reset(output: str) -> str:
    """The relay that remembers that the box lost its power since this output tripped."""
    return f"{output} reset"


def _held(compared: Compare) -> str:
    """The relay that holds what a comparison with a number sense was."""
    return f"{compared.name} held {compared.op.value} {compared.bound}"


def altered(value: Expr, on: Expr | None, off: Expr | None) -> Expr:
    """On, else off, else as it is."""
    if off is not None:
        value = And((value, Not(off)))
    return Or((value, on)) if on is not None else value


def both(*parts: Expr | None) -> Expr | None:
    """All of them; None where one of them is never so."""
    known = tuple(part for part in parts if part is not None)
    return And(known) if len(known) == len(parts) else None


def either(*parts: Expr | None) -> Expr | None:
    """Any of them; what is None is never so."""
    known = tuple(part for part in parts if part is not None)
    return None if not known else known[0] if len(known) == 1 else Or(known)


@dataclass(slots=True)
class Reading:
    """`held`: by the name of the relay that holds it, each comparison with a sensor that may hold what it was; it is
    complete once everything was read."""

    program: Program
    there: There
    held: dict[str, Compare] = field(default_factory=dict)
    _broken: dict[tuple[str, PartKind, Mode], list[Fault]] = field(init=False)
    _placed: dict[tuple[PartKind, int, Mode], list[Fault]] = field(init=False)
    _numbers: dict[str, NumberSense] = field(init=False)
    _wires: dict[str, WireSense] = field(init=False)
    _feeds: dict[str, str] = field(init=False)

    def __post_init__(self) -> None:
        self._broken = defaultdict(list)
        self._placed = defaultdict(list)
        for fault in self.there.faults:
            self._broken[fault.of, fault.kind, fault.mode].append(fault)
            self._placed[fault.kind, fault.index, fault.mode].append(fault)
        box = self.program.box
        senses = box.senses if box is not None else ()
        self._numbers = {sense.name: sense for sense in senses if isinstance(sense, NumberSense)}
        self._wires = {sense.name: sense for sense in senses if isinstance(sense, WireSense)}
        self._feeds = {each.name: each.fed_by or box.feed for each in box.outputs} if box is not None else {}

    def broken(self, name: str, kind: PartKind, *modes: Mode) -> Expr | None:
        """What has this name is broken in one of these ways; None if it never is."""
        return self.there.any(self.faults(name, kind, *modes))

    def faults(self, name: str, kind: PartKind, *modes: Mode) -> list[Fault]:
        """The faults of what has this name; of contacts and diodes, see `faults_at`."""
        return [fault for mode in modes for fault in self._broken.get((name, kind, mode), ())]

    def faults_at(self, kind: PartKind, index: int, mode: Mode) -> list[Fault]:
        """The faults of a contact or diode by its place in the program."""
        return self._placed.get((kind, index, mode), [])

    def live(self, end: str) -> Signal:
        """A wire or source is live."""
        is_source = any(source.name == end for source in self.program.sources)
        return Signal(SignalKind.SOURCE if is_source else SignalKind.LIVE, end)

    # ------------------------------------------------------------------------------------------------ who reads

    def seen(self, expr: Expr) -> Expr:
        """A condition of those who look on: what is required, given, or noticed."""
        return self._read(expr, self._looked_at)

    def copper(self, expr: Expr) -> Expr:
        """A condition of copper: outputs as they were in the reaction before; a load reads as its wire."""
        return self._read(expr, self._from_copper)

    def box(self, expr: Expr) -> Expr:
        """A condition of the box."""
        return self._read(expr, self._believed)

    def said(self, item: Said) -> Said:
        """A requirement, or something given, as those who look on read it."""
        parts = {each.name: getattr(item, each.name) for each in fields(item)}
        read = {name: self.seen(part) for name, part in parts.items() if isinstance(part, Expr)}
        return replace(item, **read)  # type: ignore[arg-type]

    def _read(self, expr: Expr, named: Callable[[Named], Expr]) -> Expr:
        def change(leaf: Expr) -> Expr:
            match leaf:
                case Signal() | Compare():
                    return named(leaf)
                case Timer() if is_filter(leaf):
                    return self._filtered(leaf)
                case Timer() | Blink() | Edge() | Previous():
                    return replace(leaf, x=self._read(leaf.x, named))
                case Bistable():
                    return replace(leaf, set=self._read(leaf.set, named), reset=self._read(leaf.reset, named))
                case Impulse():
                    return replace(leaf, x=self._read(leaf.x, named), reset=self._read(leaf.reset, named))
                case _:
                    return leaf

        return replace_leaves(expr, change)

    # ---------------------------------------------------------------------------------------------- what is read

    def _looked_at(self, leaf: Named) -> Expr:
        match leaf:
            case Signal(kind=SignalKind.OUTPUT, name=name):
                return altered(leaf, self.stuck_on(name), None)
            case Signal(kind=SignalKind.LIVE, said=load) if load:
                return altered(leaf, None, self.broken(load, PartKind.FUSE, Mode.OPEN))
            case Signal(kind=SignalKind.RELAY):
                return self._contact(leaf)
            case _:
                return self._believed(leaf)

    def _from_copper(self, leaf: Named) -> Expr:
        match leaf:
            case Signal(kind=SignalKind.OUTPUT, name=name) if self.stuck_on(name) is not None:
                return Or((leaf, Signal(SignalKind.RELAY, stuck(name))))
            case Signal(kind=SignalKind.RELAY):
                return self._contact(leaf)
            case _:
                return leaf

    def _believed(self, leaf: Named) -> Expr:
        match leaf:
            case Signal(kind=SignalKind.SENSE, name=name):
                return self._sense(leaf, self._wires[name])
            case Compare(sense=True):
                return self._unless_lost(leaf, self._compared(leaf))
            case _:
                return leaf

    def _contact(self, relay: Signal) -> Expr:
        welded = self.broken(relay.name, PartKind.RELAY, Mode.WELDED)
        return altered(relay, welded, self.broken(relay.name, PartKind.RELAY, Mode.DEAD))

    def off(self, output: str) -> Expr | None:
        """The stage of an output is off, whatever the box commands."""
        tripped = self.broken(output, PartKind.OUTPUT, Mode.TRIPPED)
        return either(
            self.broken(output, PartKind.OUTPUT, Mode.STUCK_OFF),
            self.broken(output, PartKind.FUSE, Mode.OPEN),
            both(tripped, Not(Signal(SignalKind.RELAY, reset(output)))),
        )

    def stuck_on(self, output: str) -> Expr | None:
        """The stage of an output is on although the box need not command it: as long as what feeds it is live."""
        there, off = self.broken(output, PartKind.OUTPUT, Mode.STUCK_ON), self.off(output)
        live = self.live(self._feeds[output])
        return both(there, live) if off is None else both(there, live, Not(off))

    # --------------------------------------------------------------------------------------------------- senses

    def at_wire(self, sense: WireSense) -> tuple[Expr | None, Expr | None]:
        """What turns on, and off, what a sense gets from its wire, before any filter."""
        true, false = (Mode.GROUNDED, Mode.LIVE) if sense.grounded else (Mode.LIVE, Mode.GROUNDED)
        on = self.broken(sense.name, PartKind.SENSE, true)
        return on, self.broken(sense.name, PartKind.SENSE, Mode.DEAD, false)

    def _sense(self, leaf: Signal, sense: WireSense) -> Expr:
        lost = self.broken(sense.name, PartKind.SENSE, Mode.LOST)
        on, off = self.at_wire(sense) if sense.filter is None else (None, None)
        if sense.substitute:
            return altered(leaf, both(POWERED, either(on, lost)), off)
        return altered(leaf, both(POWERED, on), either(off, lost))

    def _filtered(self, node: Timer) -> Expr:
        """A comparison with a filter time, wherever it is named."""
        if not isinstance(node.x, Compare):
            return node
        return self._unless_lost(node.x, replace(node, x=self._compared(node.x)))

    def _unless_lost(self, leaf: Compare, value: Expr) -> Expr:
        """The value, and once the sensor is lost at once what its substitute says."""
        lost, substitute = self.broken(leaf.name, PartKind.NUMBER, Mode.LOST), self._numbers[leaf.name].substitute
        if substitute is not None and compare(substitute, leaf.op, leaf.bound):
            return altered(value, both(POWERED, lost), None)
        return altered(value, None, lost)

    def _compared(self, leaf: Compare) -> Expr:
        """What the box gets for a comparison, before any filter."""
        number = next(each for each in self.program.numbers if each.name == self._numbers[leaf.name].number)
        on: Expr | None = None
        off: Expr | None = None
        for mode, end in ((Mode.LOW, number.low), (Mode.HIGH, number.high)):
            there = self.broken(leaf.name, PartKind.NUMBER, mode)
            if compare(end, leaf.op, leaf.bound):
                on = either(on, there)
            else:
                off = either(off, there)
        holding = self.holding(leaf.name)
        if holding is not None:
            self.held[_held(leaf)] = leaf
            on = either(on, both(holding, Signal(SignalKind.RELAY, _held(leaf))))
            off = either(off, holding)
        return altered(leaf, both(POWERED, on), off)

    def holding(self, sense: str) -> Expr | None:
        """A sensor holds what it was before; what it is in the very first reaction is what it begins to hold."""
        return both(self.broken(sense, PartKind.NUMBER, Mode.HOLDING), Signal(SignalKind.RELAY, UNDER_WAY))

    def number(self, leaf: Compare) -> Compare:
        """The comparison with the number itself that a comparison with its sense is."""
        return replace(leaf, name=self._numbers[leaf.name].number, sense=False)
