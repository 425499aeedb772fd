"""What is carried from one reaction into the next, and how each remembering node moves in a reaction.

The timers are those of IEC 61131-3 in dense time. A node reads the memory *before* the reaction and writes the memory
*after* it; what is not written is forgotten. A timer that falls due does so in the first reaction of a moment only.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias, assert_never

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Bistable, Blink, Edge, Expr, Impulse, Previous, Timer, TimerKind
from logiccheck.model.truth import Node

Time: TypeAlias = int | Fraction  # microseconds, exact


def whole(time: Time) -> Time:
    """The same time, as a whole number where it is one: most are, and those are compared much faster than fractions."""
    return int(time) if time == int(time) else time


@frozen
class Memory:
    """All that is stored between two reactions; everything else follows from the world."""

    coils: frozenset[str] = frozenset()  # relays whose coil was on in the reaction before: their contacts are closed
    outputs: frozenset[str] = frozenset()  # outputs that were true in the reaction before: they feed their wires
    powered: bool = False  # the box had power in the reaction before
    operands: frozenset[str] = frozenset()  # keys of nodes whose operand was true in the reaction before
    bits: frozenset[str] = frozenset()  # keys of nodes whose own bit is set (on_delay: it has come)
    clocks: frozenset[tuple[str, Time]] = frozenset()  # each running timer and how long it has run

    def later(self, elapsed: Time) -> Memory:
        """The same memory when `elapsed` has passed and nothing has happened."""
        clocks = frozenset((key, run + elapsed) for key, run in self.clocks)
        return Memory(self.coils, self.outputs, self.powered, self.operands, self.bits, clocks)


@dataclass(slots=True)
class Draft:
    """The memory of one reaction in the making: what was before, what falls due, and what is written so far."""

    before: Memory
    due: frozenset[str]  # empty in a repeat
    operands: set[str] = field(default_factory=set)
    bits: set[str] = field(default_factory=set)
    clocks: dict[str, Time] = field(default_factory=dict)
    ran: dict[str, Time] = field(init=False)  # the running timers before this reaction

    def __post_init__(self) -> None:
        self.ran = dict(self.before.clocks)

    def store(self, key: str, bit: bool) -> bool:
        """Keep the node's own bit, and give it back."""
        if bit:
            self.bits.add(key)
        return bit

    def start(self, key: str) -> None:
        self.clocks[key] = 0

    def run_on(self, key: str) -> None:
        """The timer goes on, or starts when it was not running."""
        self.clocks[key] = self.ran.get(key, 0)

    def move(self, node: Node, holds: Callable[[Expr], bool]) -> bool:
        """The node's value in this reaction; writes what it remembers. `holds` knows the nodes inside it already."""
        match node:
            case Timer():
                return self._timer(node, holds(node.x))
            case Blink():
                return self._blink(node, holds(node.x))
            case Bistable(key=key):
                stored = key in self.before.bits
                s, r = holds(node.set), holds(node.reset)
                return self.store(key, s or (stored and not r) if node.set_wins else not r and (s or stored))
            case Impulse(key=key):
                was, x = self._operand(key, holds(node.x))
                turned = (key in self.before.bits) != (x and not was)
                return self.store(key, turned and not holds(node.reset))
            case Edge(key=key):
                was, x = self._operand(key, holds(node.x))
                return x and not was if node.rising else was and not x
            case Previous(key=key):
                was, _ = self._operand(key, holds(node.x))
                return was
            case _:
                assert_never(node)

    def _operand(self, key: str, x: bool) -> tuple[bool, bool]:
        """The operand in the reaction before, and now; remembers it for the next."""
        if x:
            self.operands.add(key)
        return key in self.before.operands, x

    def _timer(self, timer: Timer, x: bool) -> bool:
        match timer.kind:
            case TimerKind.ON_DELAY:
                return self._on_delay(timer.key, x)
            case TimerKind.OFF_DELAY:
                return self._off_delay(timer.key, x)
            case TimerKind.ONE_SHOT:
                return self._one_shot(timer.key, x)
            case TimerKind.FILTER:
                return self._filter(timer.key, x)
            case _:
                assert_never(timer.kind)

    def _on_delay(self, key: str, x: bool) -> bool:
        if not x:
            return False
        if key in self.before.bits or key in self.due:
            return self.store(key, True)
        self.run_on(key)
        return False

    def _off_delay(self, key: str, x: bool) -> bool:
        was, x = self._operand(key, x)
        if x:
            return True
        if was:
            self.start(key)
        elif key in self.ran and key not in self.due:
            self.run_on(key)
        return key in self.clocks

    def _one_shot(self, key: str, x: bool) -> bool:
        was, x = self._operand(key, x)
        if key in self.ran:
            if key not in self.due:  # else it ends, and a rise in this very reaction is lost
                self.run_on(key)
        elif x and not was:
            self.start(key)
        return key in self.clocks

    def _filter(self, key: str, x: bool) -> bool:
        value = key in self.before.bits
        if x != value:
            if key in self.due:
                value = x
            else:
                self.run_on(key)
        return self.store(key, value)

    def _blink(self, node: Blink, x: bool) -> bool:
        on, off = node.key + ".on", node.key + ".off"
        if not x:
            return False
        if on in self.ran:
            if on in self.due:
                self.start(off)
            else:
                self.run_on(on)
        elif off in self.ran and off not in self.due:
            self.run_on(off)
        else:
            self.start(on)
        return on in self.clocks
