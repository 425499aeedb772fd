"""One instant of a small program with its monitors, without the time: what follows from which timers fall due.

Everything but the clocks is finite, so each distinct instant is worked out once. The interpreter makes the reactions;
clocks are handed over to the caller by name, each with its window, and all that is told about them is which of them
run after the instant and which of those began with it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise, product
from typing import TypeAlias

from logiccheck.lang.program import (
    Compare,
    Expr,
    Form,
    Never,
    Number,
    Position,
    Program,
    Signal,
    SignalKind,
    Window,
)
from logiccheck.model.interpreter import Machine, Moment
from logiccheck.model.memory import Memory
from logiccheck.model.reaction import Reaction
from tests.oracle.monitors import ChangesMonitor, Finding, Monitor, State, at_first, monitor_of, monitor_of_given
from tests.oracle.slices import named, walk
from tests.oracle.watch import Cell, Cells, Look, Phase, own_timers, remembers, running

Clock: TypeAlias = tuple[str, str]  # ("machine", key) of box and relays, ("watch", key) or ("own", number) of monitors
World: TypeAlias = tuple[int, ...]  # for each variable the index of its position or region
Reader: TypeAlias = Callable[[Expr], bool]


@dataclass(frozen=True)
class Situation:
    """Everything at an instant but how long the clocks have run; it lasts until the next event."""

    memory: Memory  # with all clocks at 0
    world: World
    cells: Cells
    states: tuple[State, ...]
    clocks: tuple[Clock, ...]  # those that run, in a fixed order


@dataclass(frozen=True)
class Event:
    """What an instant leads to. `situation` is None when it never settles."""

    situation: Situation | None
    started: frozenset[Clock]
    finding: Finding
    seen: frozenset[str]  # the cases of the requirement that occur, and its outputs that are on


def regions(number: Number) -> tuple[Fraction, ...]:
    """One value of each interval: every constant, and one between two neighbours or beside the last ones."""
    points = sorted({number.low, *number.bounds, number.high})
    between = [(a + b) / 2 for a, b in pairwise(points)]
    return tuple(sorted({*number.bounds, *between})) or (number.low,)


def world_reader(reading: dict[str, int | Fraction]) -> Reader:
    """Reads the leaves that are facts of the world."""

    def read(expr: Expr) -> bool:
        match expr:
            case Position(name=name, indices=indices):
                return reading[name] in indices
            case Compare(name=name, sense=False, op=op, bound=bound):
                value = reading[name]
                below, equal = value < bound, value == bound
                truths = {"<": below, "<=": below or equal, "=": equal}
                return (
                    truths[op.value]
                    if op.value in truths
                    else not {">": below or equal, ">=": below, "!=": equal}[op.value]
                )
            case _:
                raise AssertionError(expr)

    return read


class Turn:
    """The monitors at one instant: first the instant itself, then the stretch of time after it."""

    def __init__(self, monitors: list[Monitor], before: Situation | None, due: frozenset[Clock]) -> None:
        self.monitors = monitors
        self.due = due
        self.phase = Phase.MOMENT if before else Phase.START
        self.cells: dict[str, Cell] = dict(before.cells) if before else {}
        self.states = list(before.states) if before else [m.begin for m in monitors]
        self.started: set[Clock] = set()
        self.finding = Finding.FINE
        self.seen: set[str] = set()

    def ask(self, those: list[int], reader: Reader) -> bool:
        """Lets these monitors look; false if one of them cuts the story off here."""
        falls = frozenset(key for kind, key in self.due if kind == "watch")
        look = Look(self.phase, reader, falls, self.cells)
        for i in those:
            monitor = self.monitors[i]
            v = {name: look.value(expr) for name, expr in monitor.exprs.items()}
            due = self.phase is Phase.MOMENT and ("own", str(i)) in self.due
            step = monitor.step(self.states[i], self.phase, v, due)
            if step.finding is Finding.CUT:
                return False
            self.states[i] = step.state
            if step.started:
                self.started.add(("own", str(i)))
            if self.finding is Finding.FINE:
                self.finding = step.finding
            self.seen |= {case for case in monitor.cases if v.get(case)} | set(step.seen)
        self.cells = self.cells | look.new
        self.started |= {("watch", key) for key in look.started}
        return True


class Kernel:
    """The instants of `program` (a slice) under all that it holds as given, watched by the monitor of `form`."""

    def __init__(self, program: Program, form: Form | None) -> None:
        self.machine = Machine(program)
        self.instant = isinstance(form, Never) and form.instant
        self.names = [x.name for x in program.switches] + [x.name for x in program.numbers]
        self.values: list[tuple[int | Fraction, ...]] = [tuple(range(len(x.positions))) for x in program.switches]
        self.values += [regions(x) for x in program.numbers]
        self.steady = [x.one_by_one for x in program.switches] + [not x.jumps for x in program.numbers]
        self.monitors = [at_first(x) for x in program.at_first] + [monitor_of_given(x) for x in program.givens]
        self.watched = monitor_of(form) if form else None
        if self.watched:
            self.monitors.append(self.watched)
        every = range(len(self.monitors))
        self.early = [i for i in every if self.monitors[i] is not self.watched and self.of_world(self.monitors[i])]
        self.late = [i for i in every if i not in self.early]
        self.exprs = [x for i in self.late for x in self.monitors[i].exprs.values()]
        self.outputs = self.outputs_named()
        self.windows = self.all_windows()
        self.events: dict[object, Event | None] = {}
        self.moments: dict[object, Moment] = {}

    @staticmethod
    def of_world(monitor: Monitor) -> bool:
        """Whether it can be asked before anything reacts: it names the world alone, and remembers nothing of it."""
        exprs = list(monitor.exprs.values())
        kinds = {kind for expr in exprs for kind, _ in named(expr)}
        remembering = any(remembers(part) for expr in exprs for part in walk(expr))
        return kinds <= {"world"} and not remembering and not isinstance(monitor, ChangesMonitor)

    def outputs_named(self) -> frozenset[str]:
        """The outputs whose true state the requirement names."""
        parts = [part for expr in (self.watched.exprs.values() if self.watched else ()) for part in walk(expr)]
        return frozenset(x.name for x in parts if isinstance(x, Signal) and x.kind is SignalKind.OUTPUT)

    def all_windows(self) -> dict[Clock, Window]:
        windows: dict[Clock, Window] = {("machine", key): window for key, window in self.machine.windows.items()}
        windows |= {("watch", key): window for key, window in own_timers(self.exprs).items()}
        for i, monitor in enumerate(self.monitors):
            if monitor.time is not None:
                windows["own", str(i)] = Window(monitor.time, monitor.time, monitor.time)
        return windows

    def cases(self) -> tuple[str, ...]:
        """What must be seen for the requirement to have a case."""
        assert self.watched
        return (*self.watched.cases, *(f"{name} is on" for name in sorted(self.outputs)))

    # ------------------------------------------------------------------------------------------------- world

    def worlds(self, before: World | None) -> Iterator[World]:
        """All worlds that may follow as far as each variable alone is concerned; before time 0, all there are."""
        choices = []
        for i, values in enumerate(self.values):
            old = before[i] if before is not None and self.steady[i] else None
            choices.append([k for k in range(len(values)) if old is None or abs(k - old) < 2])
        yield from product(*choices)

    def reading(self, world: World) -> dict[str, int | Fraction]:
        """The world as the interpreter takes it."""
        return {name: self.values[i][world[i]] for i, name in enumerate(self.names)}

    def may_change(self, before: Situation, world: World) -> bool:
        """No variable changes that may not change now."""
        for i, monitor in enumerate(self.monitors):
            if isinstance(monitor, ChangesMonitor) and not before.states[i]:
                place = self.names.index(monitor.name)
                if before.world[place] != world[place]:
                    return False
        return True

    # ------------------------------------------------------------------------------------------------ events

    def event(self, before: Situation | None, world: World, due: frozenset[Clock], moment: bool = True) -> Event | None:
        """What comes of this world and these timers falling due; None: it does not meet what is given.

        Not a `moment`: only clocks of monitors end, silently. `before` is None at time 0.
        """
        key = (before, world, due, moment)
        if key not in self.events:
            self.events[key] = self.find_event(before, world, due, moment)
        return self.events[key]

    def find_event(self, before: Situation | None, world: World, due: frozenset[Clock], moment: bool) -> Event | None:
        turn = Turn(self.monitors, before, due)
        facts = world_reader(self.reading(world))
        if (before and not self.may_change(before, world)) or not turn.ask(self.early, facts):
            return None
        reactions = self.reactions(before, world, due, moment)
        if not reactions:
            loop = self.moment(before, world, due).loop
            if all(self.cut(before, due, facts, reaction) for reaction in loop):
                return None
            return Event(None, frozenset(), Finding.FINE, frozenset())
        settled = reactions[-1]
        if not turn.ask(self.late, settled.holds):
            return None
        turn.phase = Phase.AFTER
        if not (turn.ask(self.early, facts) and turn.ask(self.late, settled.holds)):
            return None
        counted = reactions if self.instant else (settled,)
        if self.instant:
            self.look_at_each(turn, reactions)
        turn.seen |= {f"{name} is on" for x in counted for name in self.outputs & x.values.named(SignalKind.OUTPUT)}
        if moment:
            turn.started |= {("machine", key) for key, run in settled.memory.clocks if run == 0}
        return Event(
            self.situation(settled.memory, world, turn), frozenset(turn.started), turn.finding, frozenset(turn.seen)
        )

    def cut(self, before: Situation | None, due: frozenset[Clock], facts: Reader, reaction: Reaction) -> bool:
        """Whether what is given is not met by a reaction of a moment that never settles. (If it is met by none that
        recurs, the moment is not allowed, whatever goes on changing in it.)"""
        turn = Turn(self.monitors, before, due)
        given = [i for i in self.late if self.monitors[i] is not self.watched]
        return not (turn.ask(self.early, facts) and turn.ask(given, reaction.holds))

    def look_at_each(self, turn: Turn, reactions: tuple[Reaction, ...]) -> None:
        """`even for an instant`: p and r plain, in every reaction."""
        assert self.watched
        for reaction in reactions:
            look = Look(Phase.AFTER, reaction.holds, frozenset(), {})
            v = {name: look.value(expr) for name, expr in self.watched.exprs.items()}
            turn.seen |= {case for case in self.watched.cases if v[case]}
            if all(v.values()):
                turn.finding = Finding.WRONG

    def situation(self, memory: Memory, world: World, turn: Turn) -> Situation:
        clocks: list[Clock] = [("machine", key) for key, _ in memory.clocks]
        clocks += [("watch", key) for key in running(self.exprs, turn.cells)]
        clocks += [("own", str(i)) for i, m in enumerate(self.monitors) if m.ticking(turn.states[i])]
        still = replace(memory, clocks=frozenset((key, 0) for key, _ in memory.clocks))
        return Situation(still, world, tuple(sorted(turn.cells.items())), tuple(turn.states), tuple(sorted(clocks)))

    def reactions(
        self, before: Situation | None, world: World, due: frozenset[Clock], moment: bool
    ) -> tuple[Reaction, ...]:
        """The reactions of the instant; none when it never settles. A silent instant repeats what is settled."""
        memory = before.memory if before else self.machine.initial()
        reading = self.reading(world)
        if not moment:
            return (self.machine.repeat(memory, reading),)
        found = self.moment(before, world, due)
        return found.reactions if found.settles else ()

    def moment(self, before: Situation | None, world: World, due: frozenset[Clock]) -> Moment:
        """The moment as the interpreter makes it, once for all."""
        memory = before.memory if before else self.machine.initial()
        reading = self.reading(world)
        falls = frozenset(key for kind, key in due if kind == "machine")
        key = (memory, world, falls)
        if key not in self.moments:
            runs = {name: self.machine.windows[name].lo - 1 if name in falls else 0 for name, _ in memory.clocks}
            ready = replace(memory, clocks=frozenset(runs.items()))
            self.moments[key] = self.machine.moment(ready, 1 if before else 0, reading, falls)
        return self.moments[key]
