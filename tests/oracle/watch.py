"""Expressions of requirements and assumptions, followed on settled values from moment to moment.

What a requirement or an assumption remembers is nobody's memory: no loss of power clears it, and it sees no edge at
time 0. Each instant that matters is looked at in one of three ways: `START` is time 0, `MOMENT` any later instant,
`AFTER` the open stretch of time that follows either, in which nothing changes and no edge holds.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import Enum
from typing import TypeAlias

from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    TimerKind,
    Window,
    Xor,
)
from tests.oracle.slices import walk

Cell: TypeAlias = tuple[bool, bool, bool]  # (operand before, own bit, timer running); in a blinker the bit is "on"
Cells: TypeAlias = tuple[tuple[str, Cell], ...]
EMPTY: Cell = (False, False, False)


class Phase(Enum):
    START = "start"
    MOMENT = "moment"
    AFTER = "after"


@dataclass
class Look:
    """One look at the expressions: what the leaves read, and what is remembered before and after it."""

    phase: Phase
    leaf: Callable[[Expr], bool]
    due: frozenset[str]  # timers of ours that fall due at this instant
    old: dict[str, Cell]
    new: dict[str, Cell] = field(default_factory=dict)
    started: set[str] = field(default_factory=set)

    def value(self, expr: Expr) -> bool:
        """The truth of `expr` at this look; every part is visited, for each remembers something."""
        match expr:
            case Const(value=value):
                return value
            case Not(x=x):
                return not self.value(x)
            case And(parts=xs):
                return False not in [self.value(x) for x in xs]
            case Or(parts=xs):
                return True in [self.value(x) for x in xs]
            case AtMostOne(parts=xs):
                return sum([self.value(x) for x in xs]) < 2
            case Xor(left=left, right=right):
                return self.value(left) is not self.value(right)
            case Signal() | Position() | Compare():
                return self.leaf(expr)
            case Timer(kind=TimerKind.FILTER):
                return self.leaf(expr)
            case _:
                return self.remember(expr)

    def remember(self, node: Expr) -> bool:
        """The truth of a node with memory, which is written."""
        match node:
            case Bistable(key=key):
                _, bit, _ = self.old.get(key, EMPTY)
                on, off = self.value(node.set), self.value(node.reset)
                bit = on or (bit and not off) if node.set_wins else (on or bit) and not off
                self.new[key] = (False, bit, False)
                return bit
            case Impulse(key=key):
                x, off = self.value(node.x), self.value(node.reset)
                _, bit, _ = self.old.get(key, EMPTY)
                bit = (bit ^ self.rises(key, x)) and not off
                self.new[key] = (x, bit, False)
                return bit
            case Edge(key=key, rising=rising):
                x = self.value(node.x)
                edge = self.rises(key, x) if rising else self.rises(key, x, falling=True)
                self.new[key] = (x, False, False)
                return edge
            case Previous(key=key):
                x = self.value(node.x)
                before = self.before(key, x)
                self.new[key] = (x, False, False)
                return before
            case Timer(key=key):
                return self.timer(node, key, self.value(node.x))
            case Blink():
                return self.blink(node, self.value(node.x))
            case _:
                raise AssertionError(node)

    def before(self, key: str, x: bool) -> bool:
        """The operand just before this instant: at time 0, and in a stretch of time, what it is."""
        return self.old[key][0] if self.phase is Phase.MOMENT else x

    def rises(self, key: str, x: bool, falling: bool = False) -> bool:
        was = self.before(key, x)
        return was and not x if falling else x and not was

    def timer(self, node: Timer, key: str, x: bool) -> bool:
        if self.phase is Phase.AFTER:
            self.new[key] = cell = self.old[key]
            return standing(node.kind, x, cell)
        _, bit, running = self.old.get(key, EMPTY)
        ends = key in self.due
        start = False
        match node.kind:
            case TimerKind.ON_DELAY:
                bit = x and (bit or ends)
                start = x and not bit and not running
                running = x and not bit
            case TimerKind.OFF_DELAY:
                start = self.rises(key, x, falling=True)
                running = not x and (start or (running and not ends))
            case _:
                start = self.rises(key, x) and not running
                running = start or (running and not ends)
        if start:
            self.started.add(key)
        self.new[key] = cell = (x, bit, running)
        return standing(node.kind, x, cell)

    def blink(self, node: Blink, x: bool) -> bool:
        """In the cell: running while x is true, and the bit is the phase."""
        key = node.key
        if self.phase is Phase.AFTER:
            self.new[key] = self.old[key]
            return self.old[key][1]
        _, on, running = self.old.get(key, EMPTY)
        if not x:
            on = running = False
        elif not running:
            on = running = True
            self.started.add(key + ".on")
        elif {key + ".on", key + ".off"} & self.due:
            on = not on
            self.started.add(key + (".on" if on else ".off"))
        self.new[key] = (x, on, running)
        return on


def standing(kind: TimerKind, x: bool, cell: Cell) -> bool:
    """The value of a timer whose operand is `x`, by its cell."""
    _, bit, running = cell
    match kind:
        case TimerKind.ON_DELAY:
            return x and bit
        case TimerKind.OFF_DELAY:
            return x or running
        case _:
            return running


def own_timers(exprs: Iterable[Expr]) -> dict[str, Window]:
    """The windows of the timers written in `exprs`, by key (filters are timers of the box)."""
    found: dict[str, Window] = {}
    for node in (part for expr in exprs for part in walk(expr)):
        if isinstance(node, Timer) and node.kind is not TimerKind.FILTER:
            found[node.key] = node.window
        elif isinstance(node, Blink):
            found |= {node.key + ".on": node.on, node.key + ".off": node.off}
    return found


def running(exprs: Iterable[Expr], cells: dict[str, Cell]) -> set[str]:
    """The keys of the timers written in `exprs` that run."""
    found: set[str] = set()
    for node in (part for expr in exprs for part in walk(expr)):
        if isinstance(node, Timer) and node.kind is not TimerKind.FILTER and cells[node.key][2]:
            found.add(node.key)
        elif isinstance(node, Blink) and cells[node.key][2]:
            found.add(node.key + (".on" if cells[node.key][1] else ".off"))
    return found


def remembers(expr: Expr) -> bool:
    """Whether this very node has memory."""
    return isinstance(expr, Timer | Blink | Bistable | Impulse | Edge | Previous)
