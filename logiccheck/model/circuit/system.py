"""The transition system of a vehicle: what is stored, which clocks run, and one moment as a circuit over them.

A *bit* is stored from moment to moment. A *clock* is a timer that runs: the moment in which it falls due is a moment of
its own. A *watch* only looks at how long something has lasted: it makes no moment, each moment may ask whether at least
(`ge`) or more than (`gt`) its time has passed since it began. All literals are of `System.aig`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.program import Micros, Window
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit
from logiccheck.model.circuit.worldcode import WorldCode


class Line(NamedTuple):
    """A line of what is given: `kind` "at first" or "given" and its number in the program, or "steps" and the name."""

    kind: str
    which: int | str
    text: str
    span: Span

    @property
    def name(self) -> tuple[str, int | str]:
        """Which line of the program it is."""
        return self.kind, self.which


@dataclass(slots=True)
class Bit:
    """`now` is an input: the value before the moment (false before time 0); `next` the value after it."""

    name: str
    now: Lit
    next: Lit = FALSE


@dataclass(slots=True)
class Clock:
    """`run`: runs before the moment. `due`: an input, falls due in this moment. `start`: begins anew in it (and
    runs after it). `run_next`: runs after it. A run that starts at t falls due in [t + lo, t + hi] (microseconds)."""

    key: str
    lo: Micros
    hi: Micros
    nominal: Micros
    run: Lit
    due: Lit
    start: Lit = FALSE
    run_next: Lit = FALSE


@dataclass(slots=True)
class Watch:
    """As a clock, but silent. `ge`, `gt`: inputs, at least / more than `time` has passed since the run began; they mean
    something only while `run`. `must`: over bits; while true (and running) the next moment comes within `time`."""

    key: str
    time: Micros
    run: Lit
    ge: Lit
    gt: Lit
    must: Lit = FALSE
    start: Lit = FALSE
    run_next: Lit = FALSE


@frozen
class Constraint:
    """`lit` is true in every moment of a story that meets what is given; `line` is None for what is always so, such as
    the coding of the world; `forcing`: it can demand that something happens by some time."""

    lit: Lit
    line: Line | None = None
    forcing: bool = False


@dataclass(slots=True)
class System:
    """`first` is true in the moment at time 0 only. `settled[kind, name]` etc. are kept by `moment.Moment`."""

    aig: Aig
    world: WorldCode
    first: Lit
    bits: dict[str, Bit] = field(default_factory=dict)
    clocks: dict[str, Clock] = field(default_factory=dict)
    watches: dict[str, Watch] = field(default_factory=dict)
    constraints: list[Constraint] = field(default_factory=list)

    def bit(self, name: str) -> Bit:
        """A new stored bit; the caller sets `next`."""
        if name in self.bits:
            raise AssertionError(f"bit {name} exists")
        bit = self.bits[name] = Bit(name, self.aig.new_input(name))
        return bit

    def memory(self, name: str, following: Lit) -> Lit:
        """A new stored bit whose next value is known already; its value before the moment."""
        bit = self.bit(name)
        bit.next = following
        return bit.now

    def before(self, lit: Lit) -> Bit:
        """The stored bit that holds what an input was in the moment before."""
        name = f"{self.aig.names[lit >> 1]} was"
        if name not in self.bits:
            self.memory(name, lit)
        return self.bits[name]

    def clock(self, key: str, window: Window) -> Clock:
        if key in self.clocks:
            raise AssertionError(f"clock {key} exists")
        run = self.bit(f"{key}.run")
        due = self.aig.new_input(f"{key}.due")
        clock = self.clocks[key] = Clock(key, window.lo, window.hi, window.nominal, run.now, due)
        return clock

    def watch(self, key: str, time: Micros) -> Watch:
        run = self.bit(f"{key}.run")
        ge, gt = self.aig.new_input(f"{key}.ge"), self.aig.new_input(f"{key}.gt")
        watch = self.watches[key] = Watch(key, time, run.now, ge, gt)
        return watch

    def run_watch(self, watch: Watch, start: Lit, run_next: Lit, must: Lit = FALSE) -> None:
        """States how the watch goes on: `start` is cut to what also runs afterwards."""
        watch.start, watch.run_next, watch.must = self.aig.both(start, run_next), run_next, must
        self.bits[f"{watch.key}.run"].next = run_next

    def constrain(self, lit: Lit, line: Line | None = None, forcing: bool = False) -> None:
        if lit != TRUE or line is not None:
            self.constraints.append(Constraint(lit, line, forcing))


def new_system(world_of: WorldCode, aig: Aig) -> System:
    """A system with nothing in it but the world and the knowledge which moment is the first."""
    running = aig.new_input("begun")
    system = System(aig, world_of, running ^ 1)
    system.bits["begun"] = Bit("begun", running, TRUE)
    for legal in world_of.legal():
        system.constrain(legal)
    return system
