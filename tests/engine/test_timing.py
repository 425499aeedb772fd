"""When a sequence of moments is possible in time: earliest times, contradictions, and round times."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.engine.shortest import Unrolling
from logiccheck.engine.timing import Edge, Fact, Trace, earliest, runs_of, schedule
from logiccheck.model.circuit.system import Clock
from tests.engine.asking import question, random_stories
from tests.model.driven import boxed

MOMENTS = 5


def order(count: int) -> list[Edge]:
    return [Edge(k, k - 1, -1) for k in range(1, count)]


def distances(count: int, edges: list[Edge]) -> list[list[float]]:
    """Shortest ways by Floyd and Warshall: t_j - t_i is at most the way from i to j."""
    far = [[0 if i == j else float("inf") for j in range(count)] for i in range(count)]
    for e in edges:
        far[e.tail][e.head] = min(far[e.tail][e.head], e.bound)
    for k in range(count):
        for i in range(count):
            for j in range(count):
                far[i][j] = min(far[i][j], far[i][k] + far[k][j])
    return far


bounds = st.builds(Edge, st.integers(0, MOMENTS - 1), st.integers(0, MOMENTS - 1), st.integers(-12, 12))


@settings(max_examples=400, deadline=None)
@given(st.lists(bounds, max_size=10))
def test_earliest_times_or_a_negative_cycle(more: list[Edge]) -> None:
    """Moments follow one another; if all can hold the times are the least there are, else the cycle proves it."""
    edges = order(MOMENTS) + [e for e in more if e.tail != e.head]
    far = distances(MOMENTS, edges)
    times, cycle = earliest(MOMENTS, edges)
    if any(far[i][i] < 0 for i in range(MOMENTS)):
        assert times is None
        assert cycle
        assert all(e in edges for e in cycle)
        assert [e.head for e in cycle] == [e.tail for e in (*cycle[1:], cycle[0])]
        assert sum(e.bound for e in cycle) < 0
    else:
        assert cycle is None
        assert times == [-far[k][0] for k in range(MOMENTS)]
        assert times[0] == 0


def test_one_moment() -> None:
    """It is at 0."""
    assert earliest(1, []) == ([0], None)


def test_equal_bounds_are_no_contradiction() -> None:
    """A cycle of length nothing can hold."""
    exactly = [Edge(0, 1, 7), Edge(1, 0, -7)]
    assert earliest(2, [*order(2), *exactly]) == ([0, 7], None)
    times, cycle = earliest(2, [*order(2), Edge(0, 1, 6), exactly[1]])
    assert times is None
    assert cycle is not None
    assert {(e.tail, e.head) for e in cycle} == {(0, 1), (1, 0)}


def windows(cone: Cone, trace: Trace, times: list[Fraction]) -> None:
    """What the moments show of each run, in the words of clocks and watches, at these times (microseconds)."""
    assert times[0] == 0
    assert all(a < b for a, b in pairwise(times))
    runs = runs_of(cone, trace)
    for k, inputs in enumerate(trace):
        for timer, begin in runs.running[k]:
            passed = times[k] - times[begin]
            if isinstance(timer, Clock):
                due = inputs[timer.due >> 1]
                assert timer.lo <= passed <= timer.hi if due else passed < timer.hi
            else:
                assert inputs[timer.ge >> 1] is (passed >= timer.time)
                assert inputs[timer.gt >> 1] is (passed > timer.time)
                assert timer.key not in runs.must[k] or passed <= timer.time


def found() -> list[tuple[Cone, Trace]]:
    """Stories of random programs."""
    return [(each.cone, each.trace) for each in random_stories(60)]


def test_times_of_stories_admit_all_that_they_show() -> None:
    """The earliest times, in the stories of random programs."""
    assert len(found()) > 40
    assert max(len(trace) for _, trace in found()) > 3
    assert any(cone.watches for cone, _ in found())
    for cone, trace in found():
        times, cycle = schedule(cone, trace)
        assert cycle is None
        assert times is not None
        windows(cone, trace, times)


def test_a_trace_that_time_forbids() -> None:
    """Two on-delays begin together and the longer one comes first: the cycle names just the two facts."""
    asked = "requirements\n    danger d never q and not p"
    program = boxed("output p when on_delay(x, 2 s)", "output q when on_delay(x, 3 s)", more=asked)
    questions, wanted = question(program, "d")
    unrolling = Unrolling(questions.told(wanted), Budget(5))
    unrolling.extend()
    unrolling.extend()
    assert unrolling.sat.solve([unrolling.bad[1]])
    times, cycle = schedule(unrolling.cone, unrolling.trace())
    unrolling.sat.close()
    assert times is None
    assert cycle is not None
    assert {(e.fact, e.key, e.begin, e.at) for e in cycle} == {(Fact.NOT_DUE, "p", 0, 1), (Fact.DUE, "q", 0, 1)}
