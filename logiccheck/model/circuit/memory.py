"""Timers, bistables and edges as circuits: the value of each in one reaction, and what it remembers.

Everything here follows IEC 61131-3 (TON, TOF, TP, SR, RS, R_TRIG, F_TRIG) as the language reference states it. `gate`
is the power of the box, the supply of a relay, or true for what nobody can switch off: without it nothing is remembered
(save the bit of what is `retained`), and every value reads false.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import assert_never

from logiccheck.lang.program import Bistable, Blink, Edge, Expr, Impulse, Previous, Timer, TimerKind
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.store import Store

Value = Callable[[Expr], Lit]


def timer(node: Timer, x: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
    """`first`: in this reaction the operand's value counts as the value before, too (observers at time 0)."""
    match node.kind:
        case TimerKind.ON_DELAY:
            return _on_delay(node, x, store, gate)
        case TimerKind.OFF_DELAY:
            return _off_delay(node, x, store, gate)
        case TimerKind.ONE_SHOT:
            return _one_shot(node, x, store, gate, first)
        case TimerKind.FILTER:
            return _filter(node, x, store, gate)
        case _:
            assert_never(node.kind)


def _on_delay(node: Timer, x: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    run, due = store.clock(node.key, node.window)
    x = aig.both(x, gate)
    value = aig.both(x, aig.either(store.read(f"{node.key}.done"), due))
    run_next = aig.both(x, value ^ 1)
    store.write(f"{node.key}.done", value)
    store.run(node.key, run_next, aig.both(run_next, run ^ 1))
    return value


def _off_delay(node: Timer, x: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    run, due = store.clock(node.key, node.window)
    going = aig.both(run, due ^ 1)
    run_next = aig.all_of([gate, x ^ 1, aig.either(store.read(f"{node.key}.on"), going)])
    x = aig.both(x, gate)
    store.write(f"{node.key}.on", x)
    store.run(node.key, run_next, aig.both(run_next, going ^ 1))
    return aig.either(x, run_next)


def _one_shot(node: Timer, x: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
    aig = store.system.aig
    run, due = store.clock(node.key, node.window)
    before = aig.choose(first, x, store.read(f"{node.key}.was"))
    start = aig.all_of([gate, x, before ^ 1, run ^ 1])
    run_next = aig.both(gate, aig.either(aig.both(run, due ^ 1), start))
    store.write(f"{node.key}.was", aig.both(x, gate))
    store.run(node.key, run_next, start)
    return run_next


def _filter(node: Timer, x: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    run, due = store.clock(node.key, node.window)
    old = store.read(f"{node.key}.bit")
    value = aig.both(gate, aig.choose(due, x, old))
    run_next = aig.both(gate, aig.differ(x, value))
    store.write(f"{node.key}.bit", value)
    store.run(node.key, run_next, aig.both(run_next, run ^ 1))
    return value


def blink(node: Blink, x: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    on, on_due = store.clock(f"{node.key}.on", node.on)
    off, off_due = store.clock(f"{node.key}.off", node.off)
    x = aig.both(x, gate)
    begin = aig.either(aig.either(on, off) ^ 1, off_due)
    on_going = aig.both(on, on_due ^ 1)
    on_next = aig.both(x, aig.either(begin, on_going))
    off_next = aig.both(x, aig.either(aig.both(off, off_due ^ 1), on_due))
    store.run(f"{node.key}.on", on_next, aig.both(on_next, on_going ^ 1))
    store.run(f"{node.key}.off", off_next, aig.both(off_next, on_due))
    return on_next


def bistable(node: Bistable, set_: Lit, reset: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    old = store.read(f"{node.key}.bit")
    set_won = aig.either(set_, aig.both(old, reset ^ 1))
    reset_won = aig.both(reset ^ 1, aig.either(set_, old))
    return _keep(node, old, set_won if node.set_wins else reset_won, store, gate)


def impulse(node: Impulse, x: Lit, reset: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
    aig = store.system.aig
    old = store.read(f"{node.key}.bit")
    before = aig.choose(first, x, store.read(f"{node.key}.was"))
    value = aig.both(reset ^ 1, aig.differ(old, aig.both(x, before ^ 1)))
    store.write(f"{node.key}.was", aig.both(x, gate))
    return _keep(node, old, value, store, gate)


def _keep(node: Bistable | Impulse, old: Lit, value: Lit, store: Store, gate: Lit) -> Lit:
    aig = store.system.aig
    store.write(f"{node.key}.bit", aig.choose(gate, value, old if node.retained else FALSE))
    return aig.both(gate, value)


def edge(node: Edge, x: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
    aig = store.system.aig
    before = aig.choose(first, x, store.read(f"{node.key}.was"))
    store.write(f"{node.key}.was", aig.both(x, gate))
    return aig.all_of([gate, x, before ^ 1] if node.rising else [gate, x ^ 1, before])


def previous(node: Previous, store: Store, gate: Lit) -> Lit:
    """The value only; `remember` states what the next reaction will read, when the operand is known."""
    return store.system.aig.both(gate, store.read(f"{node.key}.was"))


def remember(node: Previous, x: Lit, store: Store, gate: Lit) -> None:
    store.write(f"{node.key}.was", store.system.aig.both(x, gate))
