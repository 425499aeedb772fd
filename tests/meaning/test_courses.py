"""Each sentence that a course over time can show, on the interpreter and by the engine."""

from __future__ import annotations

import pytest

from tests.meaning.asking import followed_by_the_engine, shown_by_the_interpreter, timeline_of
from tests.meaning.courses_box import DIPS, MEMORY
from tests.meaning.courses_copper import RELAYS, STAGES, WIRES
from tests.meaning.courses_power import AWAKE
from tests.meaning.sentences import Course, rows
from tests.model.driven import on_for_an_instant

ALL = (*DIPS, *MEMORY, *AWAKE, *STAGES, *RELAYS, *WIRES)


@pytest.mark.parametrize("case", rows(ALL, "interpreter"))
def test_the_interpreter_shows_it(case: Course) -> None:
    """Each condition is true in just its stretches."""
    assert shown_by_the_interpreter(case) == dict(case.shows)
    timeline = timeline_of(case)
    assert {name: on_for_an_instant(timeline, name) for name in case.blips} == dict(case.blips)


@pytest.mark.parametrize("case", rows(ALL, "engine"))
def test_the_engine_shows_it(case: Course) -> None:
    """Among all stories it finds the one of this course."""
    assert followed_by_the_engine(case) == "proved"
