"""When a sequence of moments is possible in time: difference constraints between the times of moments.

A clock that began at moment b with window [lo, hi] and falls due at k: lo <= t_k - t_b <= hi; that runs and is not due:
t_k - t_b < hi. A watch that shows `ge` or `gt`, or does not, compares t_k - t_b with its time. Moments follow one
another: t_{k-1} < t_k. The due time of one run is named by no other constraint, so that these decide exactly.
References: R. Bellman, "On a routing problem", Quart. Appl. Math. 16, 1958; D. Dill, "Timing assumptions and
verification of finite-state concurrent systems", 1989 (difference bounds).

N moments; times are in microseconds multiplied by `scale` = N + 2, and "less than" is "at most, less one": a cycle of
constraints has at most N edges, hence fewer strict ones than `scale`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.model.circuit.aig import Lit, Node
from logiccheck.model.circuit.system import Clock, Watch

Trace: TypeAlias = list[Mapping[Node, bool]]  # by moment: the value of every input of the cone


class Fact(Enum):
    """What a moment shows about a run of a clock or watch that began at an earlier one."""

    DUE = "due"  # falls due
    NOT_DUE = "not due"  # runs and does not fall due
    GE = "ge"
    LESS = "not ge"
    GT = "gt"
    LE = "not gt"
    MUST = "must"  # a moment was forced to come by then
    ASKED = "asked"  # no run of a timer: the question at hand wants it so


@frozen
class Edge:
    """t_head - t_tail <= bound (scaled); `fact` of timer `key`, begun at `begin`, shown at `at`; None: order of
    moments."""

    tail: int
    head: int
    bound: int
    fact: Fact | None = None
    key: str = ""
    begin: int = 0
    at: int = 0


@frozen
class Runs:
    """`running[k]`: (clock or watch, moment it began at) for those that run before moment k; `begun[k]`: keys that
    begin at it."""

    running: list[list[tuple[Clock | Watch, int]]]
    begun: list[list[str]]
    must: list[set[str]]


class Follower:
    """Follows which timers run, moment by moment."""

    def __init__(self) -> None:
        self.runs = Runs([], [], [])
        self._began: dict[str, tuple[Clock | Watch, int]] = {}

    def step(self, timers: Iterable[tuple[Clock | Watch, bool, bool]], must: set[str]) -> None:
        """One moment more: of each timer whether a run begins in it, and whether one goes on after it; and the watches
        by whose time the moment had to come."""
        k = len(self.runs.running)
        self.runs.running.append(list(self._began.values()))
        self.runs.must.append(must)
        self.runs.begun.append([])
        for timer, starts, runs_on in timers:
            if not runs_on:
                self._began.pop(timer.key, None)
            elif starts or timer.key not in self._began:
                self._began[timer.key] = (timer, k)
                self.runs.begun[k].append(timer.key)


def runs_of(cone: Cone, trace: Trace) -> Runs:
    """Follows the circuit along a trace."""
    timers: list[Clock | Watch] = [*cone.clocks, *cone.watches]
    n, m = len(cone.bits), len(timers)
    lits = [b.next for b in cone.bits] + [t.start for t in timers] + [t.run_next for t in timers]
    lits += [w.must for w in cone.watches]
    stored = {b.now >> 1: False for b in cone.bits}
    follower = Follower()
    for inputs in trace:
        values = cone.aig.evaluate(lits, {**stored, **inputs}, cone.order)
        stored = {b.now >> 1: v for b, v in zip(cone.bits, values, strict=False)}
        must = {w.key for w, value in zip(cone.watches, values[n + 2 * m :], strict=True) if value}
        follower.step(zip(timers, values[n:], values[n + m :], strict=False), must)
    return follower.runs


def holds_last(cone: Cone, trace: Trace, lit: Lit) -> bool:
    """The literal at the last moment of a trace."""
    stored = {b.now >> 1: False for b in cone.bits}
    following = [b.next for b in cone.bits]
    value = False
    for inputs in trace:
        values = cone.aig.evaluate([*following, lit], {**stored, **inputs})
        value = values[-1]
        stored = {b.now >> 1: v for b, v in zip(cone.bits, values, strict=False)}
    return value


def edges_of(cone: Cone, trace: Trace, runs: Runs | None = None) -> list[Edge]:
    """All difference constraints of a trace."""
    scale = len(trace) + 2
    runs = runs or runs_of(cone, trace)
    edges = [Edge(k, k - 1, -1) for k in range(1, len(trace))]
    for k, inputs in enumerate(trace):
        for timer, b in runs.running[k]:
            if isinstance(timer, Clock):
                edges += _clock_edges(timer, b, k, scale, bool(inputs.get(timer.due >> 1)))
            else:
                edges += _watch_edges(timer, b, k, scale, inputs, timer.key in runs.must[k])
    return edges


def _clock_edges(clock: Clock, b: int, k: int, scale: int, due: bool) -> list[Edge]:
    if not due:
        return [Edge(b, k, clock.hi * scale - 1, Fact.NOT_DUE, clock.key, b, k)]
    return [
        Edge(b, k, clock.hi * scale, Fact.DUE, clock.key, b, k),
        Edge(k, b, -clock.lo * scale, Fact.DUE, clock.key, b, k),
    ]


def _watch_edges(watch: Watch, b: int, k: int, scale: int, inputs: Mapping[Node, bool], must: bool) -> list[Edge]:
    time = watch.time * scale
    ge, gt = bool(inputs.get(watch.ge >> 1)), bool(inputs.get(watch.gt >> 1))
    edges = [
        Edge(k, b, -time, Fact.GE, watch.key, b, k) if ge else Edge(b, k, time - 1, Fact.LESS, watch.key, b, k),
        Edge(k, b, -time - 1, Fact.GT, watch.key, b, k) if gt else Edge(b, k, time, Fact.LE, watch.key, b, k),
    ]
    return edges + ([Edge(b, k, time, Fact.MUST, watch.key, b, k)] if must else [])


def earliest(count: int, edges: list[Edge]) -> tuple[list[int], None] | tuple[None, list[Edge]]:
    """The earliest scaled times with moment 0 at 0, or a cycle of constraints that cannot hold together."""
    times = [0] * count
    reason: list[Edge | None] = [None] * count
    for round_ in range(count + 1):
        moved = False
        for e in edges:
            if times[e.head] - e.bound > times[e.tail]:
                times[e.tail] = times[e.head] - e.bound
                reason[e.tail] = e
                moved = True
        if not moved:
            return times, None
        if round_ == count or times[0] > 0:
            cycle = _cycle(reason)
            if cycle is not None:
                return None, cycle
    raise AssertionError("no cycle found")


def _cycle(reason: list[Edge | None]) -> list[Edge] | None:
    """The cycle among the reasons, if there is one already."""
    for begin in range(len(reason)):
        path: list[Edge] = []
        seen: dict[int, int] = {}
        at = begin
        while (edge := reason[at]) is not None and at not in seen:
            seen[at] = len(path)
            path.append(edge)
            at = edge.head
        if at in seen and reason[at] is not None:
            return path[seen[at] :]
    return None


def schedule(cone: Cone, trace: Trace) -> tuple[list[Fraction], None] | tuple[None, list[Edge]]:
    """The earliest times (microseconds) of a trace, or the cycle of constraints that forbids it."""
    times, cycle = earliest(len(trace), edges_of(cone, trace))
    if times is None:
        assert cycle is not None
        return None, cycle
    return [Fraction(t, len(trace) + 2) for t in times], None
