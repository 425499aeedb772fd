"""Where time runs out before it is found that the part of a vehicle that matters settles, as the whole does."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.decider import Decider
from logiccheck.engine.verdict import Obstacle, Trouble
from logiccheck.explain.asking import Asking, Seen
from logiccheck.lang.program import Possible
from tests.oracle.loading import loaded

VEHICLE = """
vehicle "V"
world
    a contact
    b contact
harness
    source plus
    wire a_wire from plus when a
    relay k coil a_wire
    relay other coil b
requirements
    function f possible k
"""


def test_the_whole_is_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is no mistake of ours, and what is known of the whole stays known."""
    made = 0
    ready = Asking._ready

    def late(self: Asking) -> Decider:
        nonlocal made
        decider, made = ready(self), made + 1
        if made == 2:
            decider.trouble = Trouble(Obstacle.UNSETTLED_UNKNOWN, None)
        return decider

    monkeypatch.setattr(Asking, "_ready", late)
    program = loaded(VEHICLE)
    form = program.requirements[0].form
    assert isinstance(form, Possible)
    asking = Asking(program, (form.q,), Budget(60))
    assert made == 2
    assert not asking.troubles
    assert {relay.name for relay in asking.program.relays} == {"k", "other"}
    assert isinstance(asking.possible(form.q), Seen)
