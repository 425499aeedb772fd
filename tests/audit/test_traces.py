"""What is stored under one name is one thing, however often it is stated."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.audit.observe import Observer
from logiccheck.audit.relation import Relation
from logiccheck.lang.program import Expr, Possible, Timer
from tests.oracle.loading import loaded

LASTS = """
vehicle "A door"
world
    door open | shut
requirements
    function possible_long "Long" possible on_delay(door is open, 3 s)
"""


def seen_twice(first: Expr, second: Expr) -> None:
    """Two questions about one vehicle, which share what they remember."""
    moment = Relation(loaded(LASTS), 0).moment
    Observer(moment, "one").see(first)
    Observer(moment, "other").see(second)


def timer() -> Timer:
    form = loaded(LASTS).requirements[0].form
    assert isinstance(form, Possible)
    assert isinstance(form.q, Timer)
    return form.q


def test_the_same_may_be_stated_again() -> None:
    seen_twice(timer(), timer())


def test_under_one_key_no_timer_has_two_times() -> None:
    window = timer().window
    longer = replace(timer(), window=replace(window, hi=window.hi + 1))
    with pytest.raises(AssertionError, match="timed in two ways"):
        seen_twice(timer(), longer)
