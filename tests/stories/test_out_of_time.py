"""Time that runs out among stories of one length: one of them is told, and that it need not be the one."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine import shortest
from logiccheck.engine.check import check_program
from logiccheck.engine.replay import confirm
from logiccheck.engine.shortest import Search
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.engine.unroll import Unrolling
from tests.engine.asking import random_stories
from tests.report.vehicles import program, report


def no_time(_: Unrolling) -> Iterator[Trace]:
    raise OutOfTime


def test_any_story_can_be_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is as short, and plays; also where something is only overdue at its end."""
    monkeypatch.setattr(shortest, "first_of_equals", no_time)
    late = 0
    for found in random_stories(60):
        cone = found.cone
        search = Search(cone, Budget(60))
        trace = search.run()
        search.close()
        assert trace is not None
        assert len(trace) == len(found.trace)
        assert not search.settled
        overdue = not holds_last(cone, trace, found.question.breach.now)
        confirm(found.program, cone, tell(cone, trace, overdue, frozenset(cone.world)), found.question.requirement.form)
        late += overdue
    assert late > 5


def test_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """The verdict stays, its story knows, and the report says so."""
    vehicle = program("    output pump when key_on\n", "    danger a never pump\n")
    told = [verdict.story for verdict in check_program(vehicle).verdicts]
    monkeypatch.setattr(shortest, "first_of_equals", no_time)
    hasty = [verdict.story for verdict in check_program(vehicle).verdicts]
    assert [story.aside.settled for story in told if story] == [True]
    assert [story.aside.settled for story in hasty if story] == [False]
    shown = report("    output pump when key_on\n", "    danger a never pump\n").verdicts[0].shown
    assert shown is not None
    assert "Time ran out before all stories as short as this one were compared. More time: --budget SECONDS." in (
        shown.remarks
    )
