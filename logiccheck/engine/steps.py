"""One step of time as a system of differences: from the last moment to this one, with everything its labels say.

Nodes: LAST and THIS are the times of the two moments, ("old", i) the deadline of clock i before the step and ("new", i)
that of a run that starts in it. A negative cycle among the differences is a set of labels that no real step has.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.engine.deadlines import Label, Predicate, Refinement, Tracked
from logiccheck.engine.timing import Edge, Trace, earliest
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.system import Clock

Point: TypeAlias = tuple[str, int]
LAST: Point = ("last", 0)
THIS: Point = ("this", 0)


class Difference(NamedTuple):
    """head - tail <= bound, or < bound when strict, because of these labels."""

    tail: Point
    head: Point
    bound: int
    strict: bool
    labels: tuple[Label, ...]


@frozen
class Doing:
    """What the clocks do in one step, by number."""

    run: frozenset[int]
    due: frozenset[int]
    start: frozenset[int]
    goes_on: frozenset[int]


def clock_differences(clocks: list[Clock], doing: Doing) -> list[Difference]:
    """What running, falling due, starting and going on say about times."""
    result = [Difference(THIS, LAST, 0, True, ())]
    for i in sorted(doing.run):
        old, run = ("old", i), (Label("run", i, True),)
        result.append(Difference(old, LAST, 0, True, run))
        result.append(Difference(LAST, old, clocks[i].hi, False, run))
        result.append(Difference(old, THIS, 0, False, run))
        if i in doing.due:
            result.append(Difference(THIS, old, 0, False, (Label("due", i, True),)))
        else:
            result.append(Difference(old, THIS, 0, True, (*run, Label("due", i, False))))
    for i in sorted(doing.start):
        new, start = ("new", i), (Label("start", i, True),)
        result.append(Difference(THIS, new, clocks[i].hi, False, start))
        result.append(Difference(new, THIS, -clocks[i].lo, False, start))
    for i in sorted(doing.goes_on):
        result.append(Difference(("old", i), THIS, 0, True, (Label("goes on", i, True),)))
    return result


def predicate_differences(
    p: Predicate, now: int, doing: Doing, after: bool, more: bool, least: bool
) -> list[Difference]:
    """What the two bits of a predicate say before or after the step; nothing when not both clocks run."""
    i, j, bound = p
    running = doing.start | doing.goes_on if after else doing.run
    if i not in running or not (j == now or j in running):
        return []

    def point(x: int) -> Point:
        if x == now:
            return THIS if after else LAST
        return ("new", x) if after and x in doing.start else ("old", x)

    def why(x: int) -> tuple[Label, ...]:
        if x == now:
            return ()
        kind = ("start" if x in doing.start else "goes on") if after else "run"
        return (Label(kind, x, True),)

    both = why(i) + why(j)
    names = ("more next", "least next") if after else ("more", "least")
    a, b = point(i), point(j)
    saying_more = (*both, Label(names[0], p, more))
    saying_least = (*both, Label(names[1], p, least))
    return [
        Difference(a, b, -bound, True, saying_more) if more else Difference(b, a, bound, False, saying_more),
        Difference(a, b, -bound, False, saying_least) if least else Difference(b, a, bound, True, saying_least),
    ]


def conflict(differences: list[Difference]) -> frozenset[Label] | None:
    """The labels of a negative cycle, or None when the differences can hold together."""
    points = sorted({x for d in differences for x in (d.tail, d.head)})
    number = {x: k for k, x in enumerate(points)}
    scale = 2 * len(points) + 4
    edges = [Edge(number[d.tail], number[d.head], d.bound * scale - d.strict, at=k) for k, d in enumerate(differences)]
    _, cycle = earliest(len(points), edges)
    return None if cycle is None else frozenset(label for e in cycle for label in differences[e.at].labels)


def lemmas(tracked: Tracked, refined: Refinement, trace: Trace) -> list[frozenset[Label]]:
    """The labels of each step of an abstract trace that no real step has; new ones only."""
    cone, clocks = refined.cone, tracked.clocks
    stored: dict[Node, bool] = {bit.now >> 1: False for bit in cone.bits}
    following = [bit.next for bit in cone.bits]
    starts, on = [c.start for c in clocks], [c.run_next for c in clocks]
    runs, dues = [c.run for c in clocks], refined.due
    found: list[frozenset[Label]] = []
    for inputs in trace:
        values = cone.aig.evaluate([*following, *starts, *on, *runs, *dues], {**stored, **inputs})
        n, m = len(following), len(clocks)
        start, run_next, run, due = (_true(values[n + m * part : n + m * (part + 1)]) for part in range(4))
        after = {bit.now >> 1: value for bit, value in zip(cone.bits, values, strict=False)}
        doing = Doing(run, due, start & run_next, run_next - start)
        differences = clock_differences(clocks, doing)
        for p in sorted(tracked.predicates):
            differences += _said(tracked, p, doing, stored, False) + _said(tracked, p, doing, after, True)
        lemma = conflict(differences)
        if lemma is not None and lemma not in tracked.lemmas and lemma not in found:
            found.append(lemma)
        stored = after
    return found


def _true(values: list[bool]) -> frozenset[int]:
    return frozenset(i for i, value in enumerate(values) if value)


def _said(tracked: Tracked, p: Predicate, doing: Doing, state: Mapping[Node, bool], after: bool) -> list[Difference]:
    bits = tracked.bits_of(p)
    return predicate_differences(p, tracked.now, doing, after, state[bits.more >> 1], state[bits.least >> 1])
