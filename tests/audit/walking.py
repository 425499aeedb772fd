"""Random walks of the reference interpreter, with the relation of the audit beside it, and the judge behind both.

Every deadline makes a moment, also those of requirements and of what is given; each lies anywhere in its window.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from random import Random

from logiccheck.audit.gates import YES, Lit
from logiccheck.audit.relation import Broken, Relation, Unsettled
from logiccheck.lang.program import Number, Possible, Program, Switch
from logiccheck.model.interpreter import Machine, Moment
from logiccheck.model.judge import given_violated, violated, witnessed
from logiccheck.model.memory import Memory, Time
from logiccheck.model.reaction import World
from logiccheck.model.timeline import Played, Timeline

REPEATS = 5


class Follower:
    """The relation of a program with what is stored; `true` after each moment are the conditions that were true."""

    def __init__(self, program: Program) -> None:
        self.relation = relation = Relation(program, REPEATS)
        self.moment, self.past = relation.moment, relation.moment.past
        self.asked = {r.name: relation.happens(Broken(r)) for r in program.requirements}
        self.unsettled = relation.happens(Unsettled())
        lits = [*self.asked.values(), self.unsettled, *relation.lines.values(), *self.past.after.values()]
        lits += [lit for clock in self.past.clocks.values() for lit in (clock.begins, clock.goes_on)]
        self.order = self.moment.gates.cone(lits)
        self.stored: dict[str, bool] = {}
        self._value: dict[int, bool] = {}

    def follow(self, world: World, due: frozenset[str]) -> None:
        """One moment more."""
        inputs = {gate: self.stored.get(name, False) for name, gate in self.past.before.items()}
        inputs |= {gate: key in due for key, gate in self.past.dues.items()}
        for name, variable in self.moment.world.variables.items():
            place = self.place(name, world)
            inputs |= {gate: place >= least for least, gate in variable.reaches.items()}
        self._value = {YES: True}
        for gate in self.order:
            parts = self.moment.gates.parts[gate]
            self._value[gate] = inputs[gate] if parts is None else all(self.true(part) for part in parts)
        self.stored = {name: self.true(lit) for name, lit in self.past.after.items()}

    def true(self, lit: Lit) -> bool:
        return self._value[lit] if lit > 0 else not self._value[-lit]

    def place(self, name: str, world: World) -> int:
        bounds = self.moment.world.variables[name].constants
        value = world[name]
        return sum((value >= b) + (value > b) for b in bounds) if bounds or isinstance(value, Fraction) else int(value)

    def clocks(self) -> tuple[set[str], set[str]]:
        """The timers that go on after the moment, and those that began at it."""
        clocks = self.past.clocks.items()
        return {k for k, c in clocks if self.true(c.goes_on)}, {k for k, c in clocks if self.true(c.begins)}


@dataclass
class Walk:
    """One walk; what is not alike is an AssertionError. `seen` tells that the walk was not dull."""

    program: Program
    random: Random
    time: Time = 0
    deadlines: dict[str, Time] = field(default_factory=dict)
    durations: dict[tuple[str, Time], Time] = field(default_factory=dict)
    first: dict[object, Time] = field(default_factory=dict)  # when a requirement or line was first seen broken
    seen: set[str] = field(default_factory=set)

    def go(self, moments: int) -> None:
        machine, follower = Machine(self.program), Follower(self.program)
        memory, elapsed = machine.initial(), Fraction(0)
        world, due = self.world({}), frozenset[str]()
        played: list[Played] = []
        for _ in range(moments):
            moment = machine.moment(memory, elapsed, world, due & machine.windows.keys())
            follower.follow(world, due)
            assert follower.true(follower.unsettled) is not settles_soon(moment), f"at {self.time}"
            if not settles_soon(moment):
                break
            self.alike(machine, moment, follower)
            played.append(Played(self.time, world, due & machine.windows.keys(), moment))
            self.note(follower)
            memory, before = moment.memory, self.time
            self.time = self.next_time()
            elapsed = Fraction(self.time - before)
            due = frozenset(key for key, deadline in self.deadlines.items() if deadline == self.time)
            if not due or self.random.random() < 0.5:
                world = self.world(world)
        if played:
            self.judge(Timeline(self.program, tuple(played), played[-1].time, self.durations, ()))

    def alike(self, machine: Machine, moment: Moment, follower: Follower) -> None:
        """What is stored of the vehicle, bit by bit, as the interpreter has it."""
        stored = {name for name, value in follower.stored.items() if value}
        expected = set(remembered(moment.memory, follower.past.after))
        own = {name for name in stored if ":" not in name and name != "begun"} - self._of_observers(machine, follower)
        assert own == expected, f"at {self.time}: {own ^ expected}"
        goes_on, begins = follower.clocks()
        assert (goes_on | begins) & machine.windows.keys() == {key for key, _ in moment.memory.clocks}
        assert begins & machine.windows.keys() == moment.started

    def _of_observers(self, machine: Machine, follower: Follower) -> set[str]:
        """The bits of memory that is written in a requirement or in what is given: the interpreter has none of it."""
        keys = machine._reactor._known
        return {name for name in follower.stored if _key(name) not in keys and not name.endswith((".coil", ".true"))}

    def note(self, follower: Follower) -> None:
        """New deadlines, and what is broken now."""
        goes_on, begins = follower.clocks()
        self.deadlines = {key: self.deadlines[key] for key in goes_on}
        for key in begins:
            clock = follower.past.clocks[key]
            lasts = Fraction(self.random.choice([2 * clock.lo, 2 * clock.hi, clock.lo + clock.hi]), 2)
            self.durations[key, self.time] = lasts
            self.deadlines[key] = self.time + lasts
        for name, lit in follower.asked.items():
            if follower.true(lit):
                self.first.setdefault(name, self.time)
        for line, lit in follower.relation.lines.items():
            if not follower.true(lit):
                self.first.setdefault(line, self.time)

    def judge(self, timeline: Timeline) -> None:
        """What the judge sees first, and when, is what the audit saw."""
        for requirement in self.program.requirements:
            form = requirement.form
            found = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
            when = None if found is None else found.time
            assert self.first.get(requirement.name) == when, f"{requirement.text}: {self.first} {when}"
            self.seen.add(f"{type(form).__name__} {'broken' if found else 'kept'}")
        for i, given in enumerate(self.program.givens):
            found = given_violated(timeline, given)
            when = None if found is None else found.time
            assert self.first.get(("given", i)) == when, f"{given.text}: {self.first} {when}"
            self.seen.add(f"{type(given).__name__} {'broken' if found else 'met'}")

    def next_time(self) -> Time:
        """Mostly the next deadline, or before it."""
        first = min(self.deadlines.values(), default=None)
        if first is None:
            return self.time + self.random.choice([500_000, 1_000_000])
        return first if self.random.random() < 0.6 else Fraction(self.time + first, 2)

    def world(self, before: Mapping[str, int | Fraction]) -> dict[str, int | Fraction]:
        """Each variable mostly as before."""
        result: dict[str, int | Fraction] = {}
        variables: tuple[Switch | Number, ...] = (*self.program.switches, *self.program.numbers)
        for variable in variables:
            if variable.name in before and self.random.random() < 0.6:
                result[variable.name] = before[variable.name]
            else:
                result[variable.name] = self.value(variable)
        return result

    def value(self, variable: Switch | Number) -> int | Fraction:
        if isinstance(variable, Switch):
            return self.random.randrange(len(variable.positions))
        edges = sorted({variable.low, *variable.bounds, variable.high})
        between = [(a + b) / 2 for a, b in pairwise(edges)]
        return Fraction(self.random.choice([*variable.bounds, *between]))  # one value of each interval


def settles_soon(moment: Moment) -> bool:
    """Within so many repeats."""
    if not moment.settles:
        return False
    last = moment.reactions[-1]
    alike = [each.values.true == last.values.true and each.memory == last.memory for each in moment.reactions]
    return alike.index(True) <= REPEATS if all(alike[alike.index(True) :]) else False


def remembered(memory: Memory, names: Mapping[str, object]) -> Iterator[str]:
    """The names of what the interpreter remembers."""
    yield from (f"{relay}.coil" for relay in memory.coils)
    yield from (f"{output}.true" for output in memory.outputs)
    yield from (f"{key}.run" for key, _ in memory.clocks)
    yield from (f"{key}.on" if f"{key}.on" in names else f"{key}.was" for key in memory.operands)
    yield from (f"{key}.done" if f"{key}.done" in names else f"{key}.bit" for key in memory.bits)


def _key(name: str) -> str:
    """The key of the node that a bit belongs to; of a blinker without its phase."""
    key = name.rpartition(".")[0]
    return key.removesuffix(".on").removesuffix(".off") if name.endswith((".on.run", ".off.run")) else key
