"""What an impossible trace teaches about deadlines, worked out by hand."""

from __future__ import annotations

from logiccheck.engine.refine import interpolants
from logiccheck.engine.timing import Edge, Fact
from tests.engine.stepping import Stepping

MOMENTS = 4
SCALE = MOMENTS + 2


def test_what_the_past_of_each_cut_proves() -> None:
    """Clocks 0 and 2 begin at moment 0. Clock 2 falls due at moment 1, after 4 at least: clock 0 with its 6 at most has
    2 at most left then. Later than that, at moment 2, clock 1 begins, and it lasts 4 at least: its deadline is later
    than that of clock 0 by more than 2. So it cannot fall due at moment 3 while clock 0 still runs."""
    stepping = Stepping([(5, 6), (4, 5), (4, 7)], [])
    cycle = [
        Edge(0, 3, 6 * SCALE - 1, Fact.NOT_DUE, "0", 0, 3),
        Edge(3, 2, -4 * SCALE, Fact.DUE, "1", 2, 3),
        Edge(2, 1, -1),
        Edge(1, 0, -4 * SCALE, Fact.DUE, "2", 0, 1),
    ]
    differences, rests = interpolants(stepping.tracked, MOMENTS, cycle)
    assert differences - {(0, 1, 0), (0, 2, 0), (1, 2, 0)} == {(0, 1, -2), (0, 2, 2)}
    assert rests == {(0, stepping.tracked.now, 2)}
