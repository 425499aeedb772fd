"""Timers, stored states and edges: their value in one look, and what they leave for the next.

After IEC 61131-3, in dense time. `gate` is what keeps a memory alive: the power of the box, the supply of a relay, or
always true. Without it everything reads false and is forgotten, save the bit of what is retained. What each stored bit
says about the past is written down in MEANING.md.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias, assert_never

from logiccheck.audit.gates import NO, Lit
from logiccheck.audit.traces import Look
from logiccheck.lang.program import Bistable, Blink, Edge, Expr, Impulse, Micros, Previous, Timer, TimerKind, Window

Holds: TypeAlias = Callable[[Expr], Lit]
Before: TypeAlias = Callable[[str, Lit], Lit]  # a name and the value now: the value before, as far as edges see it


class Memory:
    """What remembers in one look of one domain: the box, one coil, or an observer.

    `before` says how the value of an operand before this look is found: edges, `previous`, one-shots and impulse relays
    look at it. In the box it is what the look before left.
    """

    def __init__(self, look: Look, gate: Lit, before: Before | None = None) -> None:
        self.look, self.gate, self.gates = look, gate, look.gates
        self.before: Before = before if before is not None else lambda name, _: look.found(name)

    def value(self, node: Timer | Blink | Bistable | Impulse | Edge, holds: Holds) -> Lit:
        match node:
            case Timer():
                return self._timer(node, self.gates.both(self.gate, holds(node.x)))
            case Blink():
                return self._blink(node, self.gates.both(self.gate, holds(node.x)))
            case Bistable():
                return self._bistable(node, holds(node.set), holds(node.reset))
            case Impulse():
                return self._impulse(node, holds(node.x), holds(node.reset))
            case Edge():
                x, was = self._operand(node.key, holds(node.x))
                return self.gates.all([self.gate, x, -was] if node.rising else [self.gate, -x, was])
            case _:
                assert_never(node)

    def previous(self, node: Previous) -> Lit:
        """The operand before this look; for the box, whose operand may not be known yet."""
        return self.gates.both(self.gate, self.look.found(f"{node.key}.was"))

    def remember(self, node: Previous, x: Lit) -> Lit:
        """Leaves the operand of `previous` for the next look; the operand before this one."""
        x, was = self._operand(node.key, x)
        return self.gates.both(self.gate, was)

    def _operand(self, key: str, x: Lit) -> tuple[Lit, Lit]:
        """The operand now, and as it was before; it is left for the next look while the gate holds."""
        name = f"{key}.was"
        was = self.before(name, x)
        self.look.leave(name, self.gates.both(self.gate, x))
        return x, was

    # timers; x holds only while the gate does

    def _timer(self, node: Timer, x: Lit) -> Lit:
        match node.kind:
            case TimerKind.ON_DELAY:
                return self._on_delay(node, x)
            case TimerKind.OFF_DELAY:
                return self._off_delay(node, x)
            case TimerKind.ONE_SHOT:
                return self._one_shot(node, x)
            case TimerKind.FILTER:
                return self._filter(node, x)
            case _:
                assert_never(node.kind)

    def _on_delay(self, node: Timer, x: Lit) -> Lit:
        """Waits while x is true, and has come once it has waited for the time."""
        gates, run = self.gates, self.look.run(node.key)
        come = gates.both(x, gates.either(self.look.found(f"{node.key}.done"), run.due))
        waits = gates.both(x, -come)
        self.look.leave(f"{node.key}.done", come)
        self.look.leave_run(node.key, times(node.window), gates.both(waits, -run.runs), waits)
        return come

    def _off_delay(self, node: Timer, x: Lit) -> Lit:
        """Runs from the fall of x, until x or for the time."""
        gates, run = self.gates, self.look.run(node.key)
        off = gates.both(self.gate, -x)
        going = gates.both(run.runs, -run.due)
        falls = gates.all([off, self.look.found(f"{node.key}.on"), -going])
        self.look.leave(f"{node.key}.on", x)
        return gates.either(x, self.look.leave_run(node.key, times(node.window), falls, off))

    def _one_shot(self, node: Timer, x: Lit) -> Lit:
        """A rise while it does not run (nor ends in this very look) starts it; nothing stops it but the gate."""
        gates, run = self.gates, self.look.run(node.key)
        x, was = self._operand(node.key, x)
        starts = gates.all([self.gate, x, -was, -run.runs])
        return self.look.leave_run(node.key, times(node.window), starts, self.gate)

    def _filter(self, node: Timer, x: Lit) -> Lit:
        """Takes over x once x has differed from it for the time."""
        gates, run = self.gates, self.look.run(node.key)
        value = gates.both(self.gate, gates.choose(run.due, x, self.look.found(f"{node.key}.bit")))
        differs = gates.both(self.gate, gates.differ(x, value))
        self.look.leave(f"{node.key}.bit", value)
        self.look.leave_run(node.key, times(node.window), gates.both(differs, -run.runs), differs)
        return value

    def _blink(self, node: Blink, x: Lit) -> Lit:
        """While x: the on-phase from its rise, after it the off-phase, after that the on-phase."""
        gates = self.gates
        on, off = self.look.run(f"{node.key}.on"), self.look.run(f"{node.key}.off")
        neither = gates.both(-on.runs, -off.runs)
        begins = gates.both(x, gates.either(off.due, neither))
        lit = self.look.leave_run(f"{node.key}.on", times(node.on), begins, x)
        self.look.leave_run(f"{node.key}.off", times(node.off), gates.both(x, on.due), x)
        return lit

    # stored states

    def _bistable(self, node: Bistable, on: Lit, off: Lit) -> Lit:
        gates, stored = self.gates, self.look.found(f"{node.key}.bit")
        if node.set_wins:
            value = gates.either(on, gates.both(stored, -off))
        else:
            value = gates.both(-off, gates.either(on, stored))
        return self._store(node, stored, value)

    def _impulse(self, node: Impulse, x: Lit, off: Lit) -> Lit:
        gates, stored = self.gates, self.look.found(f"{node.key}.bit")
        x, was = self._operand(node.key, x)
        turned = gates.differ(stored, gates.both(x, -was))
        return self._store(node, stored, gates.both(turned, -off))

    def _store(self, node: Bistable | Impulse, stored: Lit, value: Lit) -> Lit:
        """The bit and the value of a stored state; without the gate only a retained bit stays, and reads false."""
        gates = self.gates
        asleep = stored if node.retained else NO
        self.look.leave(f"{node.key}.bit", gates.choose(self.gate, value, asleep))
        return gates.both(self.gate, value)


def times(window: Window) -> tuple[Micros, Micros]:
    return window.lo, window.hi
