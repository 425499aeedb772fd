"""The shortest stories of random programs with timers, against all sequences of moments one by one."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product

from logiccheck.engine.cone import Cone
from logiccheck.engine.grid import units
from logiccheck.engine.timing import Trace, holds_last, runs_of, schedule
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.system import Clock
from tests.engine.asking import random_stories

MOST = 14  # inputs times moments

Inputs = dict[Node, bool]


class Every:
    """All lawful sequences of moments of a cone that are possible in time, the short ones first."""

    def __init__(self, cone: Cone) -> None:
        self.cone = cone
        self.lits = [bit.next for bit in cone.bits] + [c.lit for c in cone.constraints]
        self.lits += [clock.run for clock in cone.clocks] + [watch.run for watch in cone.watches] + [cone.bad]
        self.level: list[tuple[Trace, Inputs]] = [([], {bit.now >> 1: False for bit in cone.bits})]

    def longer(self) -> list[Trace]:
        """One moment more; those of them that are bad at the last one."""
        bad: list[tuple[Trace, Inputs]] = []
        level: list[tuple[Trace, Inputs]] = []
        for trace, stored in self.level:
            for inputs in self._inputs():
                values = self.cone.aig.evaluate(self.lits, {**stored, **inputs}, self.cone.order)
                if not self._lawful(inputs, values[len(self.cone.bits) : -1]):
                    continue
                longer = [*trace, inputs]
                if schedule(self.cone, longer)[0] is None:
                    continue
                after = {bit.now >> 1: v for bit, v in zip(self.cone.bits, values, strict=False)}
                (bad if values[-1] else level).append((longer, after))
        self.level = level
        return [trace for trace, _ in bad]

    def _inputs(self) -> Iterator[Inputs]:
        for values in product((False, True), repeat=len(self.cone.inputs)):
            yield dict(zip(self.cone.inputs, values, strict=True))

    def _lawful(self, inputs: Inputs, values: list[bool]) -> bool:
        """What is given holds; only what runs falls due or has lasted."""
        count = len(self.cone.constraints)
        if not all(values[:count]):
            return False
        running = iter(values[count:])
        for clock in self.cone.clocks:
            if not next(running) and inputs[clock.due >> 1]:
                return False
        for watch in self.cone.watches:
            run, ge, gt = next(running), inputs[watch.ge >> 1], inputs[watch.gt >> 1]
            if (gt and not ge) or (ge and not run):
                return False
        return True


def changes(cone: Cone, trace: Trace) -> int:
    return sum(
        any(before[node] is not after[node] for node in nodes)
        for before, after in pairwise(trace)
        for nodes in cone.world.values()
    )


def chosen(cone: Cone, trace: Trace) -> list[list[bool]]:
    """What hands and timers do; watches only look on."""
    nodes = [node for group in cone.world.values() for node in group] + [clock.due >> 1 for clock in cone.clocks]
    return [[inputs[node] for node in nodes] for inputs in trace]


class Rank:
    """Where a trace stands among those of its length: the least is told. Written from what the times must be like."""

    def __init__(self, cone: Cone) -> None:
        self.cone = cone
        self.watch = next((w for w in cone.watches if cone.aig.both(w.run, w.gt) == cone.overdue), None)

    def of(self, trace: Trace) -> tuple[object, ...] | None:
        """Fewest changes, the coarsest grid, the end, the moments before it, the alphabet, what falls due; None for one
        at whose end something is overdue though it is not just after it."""
        late = self.watch is not None and holds_last(self.cone, trace, self.cone.overdue)
        if late and self._brings_something(trace):
            return None
        grids = (round(unit) if unit >= 1 else unit for unit in units(len(trace)))
        coarseness, times = next((n, t) for n, u in enumerate(grids) if (t := self._times(trace, late, u)) is not None)
        return (changes(self.cone, trace), coarseness, times[-1], late, times, self._alphabet(trace), self._dues(trace))

    def _brings_something(self, trace: Trace) -> bool:
        due = any(trace[-1][clock.due >> 1] for clock in self.cone.clocks)
        return due or changes(self.cone, trace[-2:]) > 0

    def _times(self, trace: Trace, late: bool, unit: Fraction | int) -> list[Fraction | int] | None:
        """The least multiples of the unit that fit, raised until they do."""
        count, last = len(trace), len(trace) - 1
        windows = list(self._windows(trace, late))
        times: list[Fraction | int] = [0] * count
        for _ in range(count * len(windows) + count + 2):
            before = list(times)
            for k in range(1, count):
                gap = 0 if late and k == last else unit
                times[k] = max(times[k], times[k - 1] + gap)
            for b, k, low, above, high, below in windows:
                after = late and k == last
                least = -(-(times[b] + low) // unit) * unit
                times[k] = max(times[k], least + unit if above and not after and least == times[b] + low else least)
                if high is not None:
                    first = -(-(times[k] - high) // unit) * unit
                    at_once = (below or after) and first == times[k] - high
                    times[b] = max(times[b], first + unit if at_once else first)
            if times[0] > 0:
                return None
            if times == before:
                return times
        return None

    def _windows(self, trace: Trace, late: bool) -> Iterator[tuple[int, int, int, bool, int | None, bool]]:
        """(b, k, low, more than it, high, less than it) of each run that began at b and is looked at at k."""
        runs = runs_of(self.cone, trace)
        for k, inputs in enumerate(trace):
            for timer, b in runs.running[k]:
                if isinstance(timer, Clock):
                    due = inputs[timer.due >> 1]
                    yield (b, k, timer.lo if due else 0, False, timer.hi, not due)
                    continue
                if late and timer is self.watch and k == len(trace) - 1:
                    yield (b, k, timer.time, False, None, False)
                    yield (k, b, -timer.time, False, None, False)
                    continue
                ge, gt = inputs[timer.ge >> 1], inputs[timer.gt >> 1]
                asked = not late or k < len(trace) - 1  # nothing happens just after what was due
                yield (b, k, timer.time if ge and asked else 0, gt and asked, None if gt else timer.time, not ge)
                if timer.key in runs.must[k]:
                    yield (b, k, 0, False, timer.time, False)

    def _alphabet(self, trace: Trace) -> list[tuple[int, int]]:
        rank, before = [], dict[str, int]()
        for inputs in trace:
            for name in sorted(self.cone.world):
                nodes = self.cone.world[name]
                index = sum(1 << i for i, node in enumerate(nodes) if inputs[node])
                rank.append((1, 0) if before.get(name) == index else (0, index))
                before[name] = index
        return rank

    def _dues(self, trace: Trace) -> list[bool]:
        clocks = sorted(self.cone.clocks, key=lambda clock: clock.key)
        return [inputs[clock.due >> 1] for inputs in trace for clock in clocks]


def test_the_one_told_of_all_that_are_as_short() -> None:
    """Wherever there are few enough sequences to look at all: no shorter one, and of this length just one that is
    before all others, the one found."""
    lengths, beaten = [], 0
    for each in random_stories(60):
        cone, trace, asked = each.cone, each.trace, each.question.requirement.text
        if len(cone.inputs) * len(trace) > MOST:
            continue
        every = Every(cone)
        for moments in range(1, len(trace) + 1):
            bad = every.longer()
            assert bool(bad) is (moments == len(trace)), asked
        ranks = [(rank, other) for other in bad if (rank := Rank(cone).of(other)) is not None]
        least = min(rank for rank, _ in ranks)
        assert all(chosen(cone, other) == chosen(cone, trace) for rank, other in ranks if rank == least), asked
        lengths.append((len(trace), bool(cone.clocks or cone.watches)))
        beaten += len({rank[:1] for rank, _ in ranks}) > 1
    assert sum(length >= 3 and timed for length, timed in lengths) > 15
    assert beaten > 10
