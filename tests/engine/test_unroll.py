"""Lessons of time hold where they were learned, and nowhere else."""

from __future__ import annotations

from logiccheck.base.budget import Budget
from logiccheck.engine.timing import Edge, Fact
from logiccheck.engine.unroll import Unrolling
from tests.engine.stepping import Stepping

LONG, SHORT = 0, 1  # clocks of 5 and of 3 microseconds


class Unrolled:
    """Three moments of two clocks; at the first one both begin, at the last one the long one falls due."""

    def __init__(self) -> None:
        self.stepping = Stepping([(5, 5), (3, 3)], [])
        self.unrolling = Unrolling(self.stepping.tracked.cone, Budget(60))
        for _ in range(3):
            self.unrolling.extend()
        self.both = self.says(0, start=(LONG, SHORT)) + self.says(1, stay=(LONG, SHORT)) + self.says(2, due=(LONG,))

    def says(
        self, moment: int, start: tuple[int, ...] = (), stay: tuple[int, ...] = (), due: tuple[int, ...] = ()
    ) -> list[int]:
        """The literals of what the clocks do at a moment; what is not named they do not."""
        lit, found = self.unrolling.moments[moment].lit, []
        for i, clock in enumerate(self.stepping.tracked.clocks):
            for node, names in ((self.stepping.start[i], start), (self.stepping.stay[i], stay), (clock.due, due)):
                found.append(lit(node) if i in names else -lit(node))
        return found


def test_a_run_that_begins_anew_is_another_run() -> None:
    """The short clock cannot outlast the long one; begun anew on the way it can."""
    u = Unrolled()
    assert u.unrolling.possible(u.both) is None
    anew = u.says(0, start=(LONG, SHORT)) + u.says(1, start=(SHORT,), stay=(LONG,)) + u.says(2, due=(LONG,))
    assert u.unrolling.possible(anew) is not None
    assert u.unrolling.possible(u.both) is None


def test_what_is_asked_once_does_not_bind_what_is_asked_later() -> None:
    """The long clock falls due after 5; nothing ends by 4 with it, but by 5."""
    u = Unrolled()
    alone = u.says(0, start=(LONG,)) + u.says(1, stay=(LONG,)) + u.says(2, due=(LONG,))
    scale = len(u.unrolling.moments) + 2
    for end, there_is in ((4, False), (5, True), (4, False), (6, True)):
        asked = [Edge(0, 2, end * scale, Fact.ASKED)]
        assert (u.unrolling.possible(alone, asked) is not None) is there_is
    assert u.unrolling.possible(alone) is not None
