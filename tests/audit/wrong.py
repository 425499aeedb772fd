"""Deliberate mistakes in the part of the program that the audit doubts: each makes the search prove what is not so."""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import dataclass, replace

import pytest

from logiccheck.engine import settle
from logiccheck.lang.program import AfterLasting, Bistable, Edge, Given, Op, Program, Timer
from logiccheck.model.circuit import memory, worldcode
from logiccheck.model.circuit import reaction as reactions
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.store import Store
from logiccheck.model.circuit.system import Line
from logiccheck.model.circuit.wires import Way, contact_ways
from logiccheck.require import forms, given
from logiccheck.require.forms import Breach
from logiccheck.require.observe import Observer
from tests.oracle.loading import loaded

Patch = pytest.MonkeyPatch

VEHICLE = """
vehicle "V"
world
    a contact
    b contact
    n 0 .. 100 rpm
    at first a is off, b is off
harness
    source plus
    wire w from plus when a
    wire u from plus when b
    wire v
    diode w -> v
    relay k coil a
    wire lamp from plus when k
controller "Box" powered by plus
    sense x from w live
    sense y from u live
    output late when off_delay(x, 5 s)
    output shot when one_shot(x, 3 s)
    output held when bistable(set x, reset y)
    output once when bistable(set rises(x))
"""


def _off_delay_is_no_delay(patch: Patch) -> None:
    right = memory._off_delay

    def wrong(node: Timer, x: Lit, store: Store, gate: Lit) -> Lit:
        right(node, x, store, gate)
        return store.system.aig.both(x, gate)

    patch.setattr(memory, "_off_delay", wrong)


def _one_shot_takes_a_rise_at_its_end(patch: Patch) -> None:
    def wrong(node: Timer, x: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
        aig = store.system.aig
        run, due = store.clock(node.key, node.window)
        before = aig.choose(first, x, store.read(f"{node.key}.was"))
        going = aig.both(run, due ^ 1)
        start = aig.all_of([gate, x, before ^ 1, going ^ 1])
        run_next = aig.both(gate, aig.either(going, start))
        store.write(f"{node.key}.was", aig.both(x, gate))
        store.run(node.key, run_next, start)
        return run_next

    patch.setattr(memory, "_one_shot", wrong)


def _set_wins(patch: Patch) -> None:
    right = memory.bistable

    def wrong(node: Bistable, set_: Lit, reset: Lit, store: Store, gate: Lit) -> Lit:
        return right(replace(node, set_wins=True), set_, reset, store, gate)

    patch.setattr(memory, "bistable", wrong)


def _nothing_rises(patch: Patch) -> None:
    right = memory.edge

    def wrong(node: Edge, x: Lit, store: Store, gate: Lit, first: Lit) -> Lit:
        right(node, x, store, gate, first)
        return FALSE

    patch.setattr(memory, "edge", wrong)


def _no_diodes(patch: Patch) -> None:
    def wrong(program: Program, closed: dict[int, Lit], forward: bool) -> list[Way]:
        return contact_ways(replace(program, diodes=()), closed, forward)

    patch.setattr(reactions, "contact_ways", wrong)


def _at_least_is_above(patch: Patch) -> None:
    patch.setitem(worldcode._HOLDS, Op.GE, operator.gt)


def _nothing_lasts_too_long(patch: Patch) -> None:
    right = forms._never_longer
    patch.setattr(forms, "_never_longer", lambda o, form: Breach(FALSE, cases=right(o, form).cases))


def _nothing_has_to_last(patch: Patch) -> None:
    right = given._constrain

    def wrong(o: Observer, line_given: Given, line: Line) -> None:
        right(o, replace(line_given, time=1) if isinstance(line_given, AfterLasting) else line_given, line)

    patch.setattr(given, "_constrain", wrong)


def _all_settles_at_once(patch: Patch) -> None:
    patch.setattr(settle, "_can_go_on", lambda moment: False)


@dataclass(frozen=True)
class Wrong:
    """A mistake, and a requirement that does not hold but is proved with it."""

    name: str
    make: Callable[[Patch], None]
    requirement: str
    given: str = ""

    @property
    def program(self) -> Program:
        lines = f"given\n    {self.given}\n" if self.given else ""
        return loaded(f"{VEHICLE}{lines}requirements\n    danger wrong {self.requirement}\n")


WRONG = [
    Wrong("off-delay is no delay", _off_delay_is_no_delay, "never late while not a"),
    Wrong("a rise at the end is taken", _one_shot_takes_a_rise_at_its_end, "never a becomes on and not shot"),
    Wrong("set wins", _set_wins, "never a and not held"),
    Wrong("nothing rises", _nothing_rises, "never once"),
    Wrong("no diodes", _no_diodes, "never v"),
    Wrong("at least is above", _at_least_is_above, "never n at least 50 rpm and n at most 50 rpm"),
    Wrong("nothing lasts too long", _nothing_lasts_too_long, "never a for longer than 5 s"),
    Wrong(
        "nothing has to last",
        _nothing_has_to_last,
        "never a and b for longer than 1 s",
        "b is off after a has lasted 5 s",
    ),
    Wrong("all settles at once", _all_settles_at_once, "never lamp while a becomes on"),
]
