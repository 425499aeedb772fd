"""Would one fixed time for each timer with a tolerance do as well: are the same moments possible when all runs of one
timer last the same?

With lengths chosen, difference constraints decide it (see `timing`). Where they cannot hold together the cycle says
what of the lengths it is: one more linear inequality, until lengths are found or none are left (see `ranges`). There
are but so many cycles. Lengths are whole microseconds, as they can be written in a file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.grid import times_on_grid
from logiccheck.engine.ranges import Row, TooMany, choose
from logiccheck.engine.tell import story_at
from logiccheck.engine.timing import Edge, Fact, Trace, earliest, edges_of
from logiccheck.model.circuit.system import Clock
from logiccheck.model.story import Answer, Story

Lengths = Mapping[str, int]  # of the runs of each timer with a tolerance, in microseconds


@frozen
class Fixed:
    """`lengths` by which the moments are possible, of timers that the story has a length of, or that are not nominal;
    and `story`, the same moments with them, where the answer is yes."""

    answer: Answer
    lengths: Lengths
    story: Story | None = None


def with_fixed_times(cone: Cone, trace: Trace, story: Story, budget: Budget) -> Fixed | None:
    """Of a trace that is possible in time, and its story; None where no timer with a tolerance has to last any time.
    May raise OutOfTime."""
    told = {run.key for run in story.runs}
    clocks = sorted((c for c in cone.clocks if c.lo < c.hi), key=lambda clock: clock.key)
    if not told & {clock.key for clock in clocks}:
        return None
    edges, scale = sorted(edges_of(cone, trace), key=_order), len(trace) + 2
    rows = list(_windows(clocks))
    while True:
        budget.check()
        try:
            chosen = choose(rows, [clock.nominal for clock in clocks])
        except TooMany:
            return Fixed(Answer.OPEN, {})
        if chosen is None:
            return Fixed(Answer.NO, {clock.key: clock.nominal for clock in clocks if clock.key in told})
        lengths = {clock.key: length for clock, length in zip(clocks, chosen, strict=True)}
        fixed = [_fix(edge, lengths, scale) for edge in edges]
        times, cycle = earliest(len(trace), fixed)
        if times is not None:
            rounded = times_on_grid(fixed, len(trace), cone.late if story.overdue else "")
            again = story_at(cone, trace, rounded, story.overdue, story.involved, lengths)
            unusual = {clock.key for clock in clocks if lengths[clock.key] != clock.nominal}
            return Fixed(Answer.YES, {key: lengths[key] for key in lengths if key in told | unusual}, again)
        rows.append(_row(cycle or [], clocks, scale))


def _order(edge: Edge) -> tuple[int | str, ...]:
    """So that the cycles that are found, and with them the lengths, are the same in every order of the file."""
    fact = "" if edge.fact is None else edge.fact.value
    return (edge.tail, edge.head, edge.bound, fact, edge.key, edge.begin, edge.at)


def _windows(clocks: Sequence[Clock]) -> Iterator[Row]:
    """Each length is in its window."""
    for i, clock in enumerate(clocks):
        alone = [int(i == j) for j in range(len(clocks))]
        yield Row(tuple(alone), -clock.lo)
        yield Row(tuple(-x for x in alone), clock.hi)


def _sign(edge: Edge) -> int:
    """How often the length of its run is in the bound of an edge of a clock."""
    return 1 if edge.head == edge.at else -1


def _fix(edge: Edge, lengths: Lengths, scale: int) -> Edge:
    """The edge with the length of its run put in; those of the window of a run are one and the same then."""
    if edge.fact not in (Fact.DUE, Fact.NOT_DUE) or edge.key not in lengths:
        return edge
    return replace(edge, bound=_sign(edge) * lengths[edge.key] * scale - (edge.fact is Fact.NOT_DUE))


def _row(cycle: Sequence[Edge], clocks: Sequence[Clock], scale: int) -> Row:
    """The bounds around a cycle add up to nothing or more: what that says of the lengths."""
    keys = [clock.key for clock in clocks]
    parts, rest, more = [0] * len(keys), 0, False
    for edge in cycle:
        if edge.fact in (Fact.DUE, Fact.NOT_DUE) and edge.key in keys:
            parts[keys.index(edge.key)] += _sign(edge)
            more = more or edge.fact is Fact.NOT_DUE
        else:
            rest += -(-edge.bound // scale)
            more = more or edge.bound % scale != 0
    return Row(tuple(parts), rest, more)
