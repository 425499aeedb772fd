"""Two definitions of timers and memory, one moving in reactions and one over whole signals, say the same."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.lang.program import WorldSet
from logiccheck.model.observed import signal
from logiccheck.model.play import play
from logiccheck.model.signals import Instant, Steps
from tests.model.driven import SECOND, boxed, named

RULES = [
    "on_delay({x}, 3 s)",
    "off_delay({x}, 3 s)",
    "one_shot({x}, 3 s)",
    "blink({x}, on 1 s, off 2 s)",
    "bistable(set {x}, reset {y})",
    "bistable(set {x}, reset {y}, set wins)",
    "bistable(set rises({x}), reset falls({y}))",
    "impulse_relay({x}, reset {y})",
    "on_delay(off_delay({x}, 1 s), 2 s)",
    "off_delay(on_delay({x}, 2 s) and not {y}, 1 s)",
    "one_shot(off_delay({x}, 1 s) or {y}, 3 s)",
    "bistable(set on_delay({x}, 1 s), reset one_shot({y}, 2 s))",
    "on_delay(bistable(set rises({x}), reset rises({y})), 2 s)",
]


@pytest.mark.parametrize("rule", RULES)
@settings(max_examples=60, deadline=None)
@given(flips=st.lists(st.tuples(st.integers(0, 6), st.sampled_from("xy")), max_size=14))
def test_box_and_observer_agree(rule: str, flips: list[tuple[int, str]]) -> None:
    """Both inputs are off at time 0, where the two differ on purpose; half seconds make many events coincide."""
    observer = rule.format(x="x_wire", y="y_wire")
    vehicle = boxed(
        f"rule q = {rule.format(x='x', y='y')}",
        inputs=("x", "y"),
        more=f"requirements\n    danger d never {observer}",
    )
    time, state, changes = SECOND // 2, {"x": 0, "y": 0}, []
    for pause, name in flips:
        time += pause * SECOND // 2
        state[name] ^= 1
        changes.append(WorldSet(time, name, state[name]))
    timeline = play(vehicle, changes, [], time + 9 * SECOND, {"x": 0, "y": 0})
    mine = signal(timeline, vehicle.requirements[0].form.p)  # type: ignore[union-attr]
    box = signal(timeline, named(vehicle, "q"))
    assert runs(mine) == runs(box)


def runs(steps: Steps) -> list[tuple[Instant, Instant | None]]:
    return list(steps.runs())


X = Steps((0, 10, 20), (True, False, True), (True, True, False))


def test_values_at_before_and_after() -> None:
    """A signal with a gap of no time at 10, which is true at 20 and false just after."""
    assert [X.value(Instant(time)) for time in (0, 5, 10, 15, 20, 25)] == [True, True, False, True, True, False]
    assert [X.value(Instant(time, after=True)) for time in (0, 5, 10, 20)] == [True, True, True, False]
    assert [X.before(time) for time in (0, 5, 10, 20, 21)] == [True, True, True, True, False]
    assert runs(X) == [
        (Instant(0), Instant(10)),
        (Instant(10, after=True), Instant(20, after=True)),
    ]
