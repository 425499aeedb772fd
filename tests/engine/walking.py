"""The circuit of a moment followed along a random walk, beside the reference interpreter.

Nothing that is given is looked at, and no requirement: hands do what they like, at any time, also together with timers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from typing import TypeAlias

from logiccheck.engine.settle import settle, with_repeats
from logiccheck.lang.program import Number, Program, SignalKind, Switch
from logiccheck.model.circuit.aig import Lit, Node
from logiccheck.model.circuit.moment import Moment as Circuit
from logiccheck.model.circuit.reaction import Forms
from logiccheck.model.circuit.worldcode import WorldCode
from logiccheck.model.interpreter import Machine, Moment
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Reaction

Signals: TypeAlias = dict[tuple[SignalKind, str], bool]

MOST_REPEATS = 8


@dataclass(frozen=True)
class Shown:
    """What the circuit says of one moment: the signals of each reaction, whether a repeat more would change something,
    and of the clocks which run on and which of these began in it."""

    reactions: list[Signals]
    unsettled: bool
    running: frozenset[str]
    begun: frozenset[str]
    stored: frozenset[str]  # bits


class Follower:
    """The circuit of a program, with what is stored between moments."""

    def __init__(self, program: Program) -> None:
        depth = settle(program, Forms())
        self.always = depth.always
        self.circuit: Circuit = depth.moment if depth.always else with_repeats(program, Forms(), MOST_REPEATS)
        self.system = self.circuit.system
        self.signals = [list(reaction.signals.items()) for reaction in self.circuit.reactions]
        clocks = self.system.clocks.values()
        self.lits: list[Lit] = [lit for signals in self.signals for _, lit in signals]
        self.lits += [bit.next for bit in self.system.bits.values()]
        self.lits += [lit for clock in clocks for lit in (clock.run_next, clock.start)]
        self.lits.append(self.circuit.unsettled)
        self.order = self.system.aig.cone(self.lits)
        self.stored: dict[Node, bool] = {}

    def moment(self, world: Mapping[str, int | Fraction], due: frozenset[str]) -> Shown:
        """The next moment."""
        inputs = {**self.stored, **coded_world(self.system.world, world)}
        inputs |= {clock.due >> 1: key in due for key, clock in self.system.clocks.items()}
        values = iter(self.system.aig.evaluate(self.lits, inputs, self.order))
        reactions = [{key: next(values) for key, _ in signals} for signals in self.signals]
        stored = {name: next(values) for name in self.system.bits}
        clocks = {key: (next(values), next(values)) for key in self.system.clocks}
        self.stored = {self.system.bits[name].now >> 1: value for name, value in stored.items()}
        return Shown(
            reactions,
            next(values),
            frozenset(key for key, (run, _) in clocks.items() if run),
            frozenset(key for key, (_, start) in clocks.items() if start),
            frozenset(name for name, value in stored.items() if value),
        )


def coded_world(code: WorldCode, world: Mapping[str, int | Fraction]) -> dict[Node, bool]:
    """The bits of the world: positions by number, numbers by the interval in which they lie."""
    result: dict[Node, bool] = {}
    for name, coded in code.coded.items():
        index = index_of(coded.variable, world[name])
        result |= {bit >> 1: bool(index >> i & 1) for i, bit in enumerate(coded.bits)}
    return result


def index_of(variable: Switch | Number, value: int | Fraction) -> int:
    """0 is below all constants, 1 the first of them, 2 what lies between it and the second, and so on."""
    if isinstance(variable, Switch):
        return int(value)
    return sum((value >= bound) + (value > bound) for bound in variable.bounds)


@dataclass
class Walk:
    """The interpreter on its way, and the follower beside it; `tell` what was seen by name."""

    program: Program
    random: Random
    time: Time = 0
    deadlines: dict[str, Time] = field(default_factory=dict)
    seen: set[str] = field(default_factory=set)

    def go(self, moments: int) -> set[str]:
        """So many moments, or up to one that does not settle; what is not alike is an AssertionError."""
        machine, follower = Machine(self.program), Follower(self.program)
        memory, world, due = machine.initial(), random_world(self.program, self.random, {}), frozenset[str]()
        elapsed: Time = 0
        for _ in range(moments):
            moment = machine.moment(memory, elapsed, world, due)
            shown = follower.moment(world, due)
            if not self.settled_alike(moment, shown, follower):
                break
            self.alike(moment, shown)
            memory = moment.memory
            self.note(machine, moment)
            before = self.time
            self.time = self.next_time()
            elapsed = self.time - before
            due = frozenset(key for key, deadline in self.deadlines.items() if deadline == self.time)
            if not due or self.random.random() < 0.5:
                world = random_world(self.program, self.random, world)
        return self.seen

    def settled_alike(self, moment: Moment, shown: Shown, follower: Follower) -> bool:
        """Whether the moment settles within the reactions of the circuit: both must say the same."""
        needed = settled_after(moment)
        enough = moment.settles and needed <= len(shown.reactions)
        assert shown.unsettled is not enough, f"at {self.time}: {needed} reactions, {moment.settles}"
        if follower.always:
            assert enough, f"at {self.time}: {needed} reactions"
        self.seen.add("settled" if enough else "unsettled")
        return enough

    def alike(self, moment: Moment, shown: Shown) -> None:
        """Every signal of every reaction, what is stored of relays and outputs, and every clock."""
        for k, signals in enumerate(shown.reactions):
            reaction = moment.reactions[min(k, len(moment.reactions) - 1)]
            unlike = [key for key, value in signals.items() if truth(reaction, *key) is not value]
            assert not unlike, f"at {self.time}, reaction {k}: {unlike}"
        memory = moment.memory
        assert shown.running == {key for key, _ in memory.clocks}, f"at {self.time}"
        assert shown.begun == moment.started, f"at {self.time}"
        assert {name[:-5] for name in shown.stored if name.endswith(".coil")} == memory.coils
        assert {name[:-5] for name in shown.stored if name.endswith(".true")} == memory.outputs
        for key in shown.running:  # what the search for the number of repeats takes for granted
            assert f"{key}.done" not in shown.stored
            assert f"{key}.on" not in shown.stored
            assert not (key.endswith(".on") and f"{key[:-3]}.off" in shown.running)

    def note(self, machine: Machine, moment: Moment) -> None:
        """New deadlines, each at one end of its window or in the middle."""
        running = machine.running(moment.memory)
        self.deadlines = {key: self.deadlines[key] for key in running.keys() - moment.started}
        for key in moment.started:
            window = machine.windows[key]
            lasting: list[Time] = [window.lo, window.hi, Fraction(window.lo + window.hi, 2)]
            self.deadlines[key] = self.time + self.random.choice(lasting)
        if moment.started:
            self.seen.add("timer")
        if len(moment.reactions) > 2:
            self.seen.add("repeats")
        if self.program.box and not moment.memory.powered:
            self.seen.add("asleep")

    def next_time(self) -> Time:
        """Mostly the next deadline, or before it."""
        first = min(self.deadlines.values(), default=None)
        if first is None:
            return self.time + self.random.choice([500_000, 1_000_000])
        return first if self.random.random() < 0.6 else Fraction(self.time + first, 2)


def random_world(program: Program, random: Random, before: Mapping[str, int | Fraction]) -> dict[str, int | Fraction]:
    """Each variable mostly as before."""
    result: dict[str, int | Fraction] = {}
    for switch in program.switches:
        result[switch.name] = random.randrange(len(switch.positions))
    for number in program.numbers:
        marks: list[Fraction] = [number.low, *number.bounds, number.high]
        mark, other = random.choice(marks), random.choice(marks)
        result[number.name] = random.choice([mark, (mark + other) / 2])
    kept = {name for name in before if random.random() < 0.6}
    return {name: before[name] if name in kept else value for name, value in result.items()}


def settled_after(moment: Moment) -> int:
    """The number of reactions after which no signal and no memory changes (what stands inside a rule still may)."""
    last = moment.reactions[-1]
    alike = [each.values.true == last.values.true and each.memory == last.memory for each in moment.reactions]
    return len(alike) - (alike[::-1].index(False) if False in alike else len(alike)) + 1


def truth(reaction: Reaction, kind: SignalKind, name: str) -> bool:
    """The signal in a reaction of the interpreter; a filtered comparison is a node there."""
    return reaction.is_true(kind, name) or (kind is SignalKind.SENSE and name in reaction.values.nodes)
