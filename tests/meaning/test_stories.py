"""The sentence about the times of stories: earliest on the coarsest grid that admits the story."""

from __future__ import annotations

import pytest

from tests.engine.following import verdicts
from tests.model.driven import program, seconds

TEXT = 'vehicle "T"\nworld\n    x contact\n    at first x is {first}\nrequirements\n    danger d {asked}\n'

CASES = [
    ("as-early-as-time-0", "on", "never on_delay(x, 2 h)", "0 7200"),
    ("whole-seconds", "off", "never on_delay(x, 90 s)", "0 1 91"),
    ("whole-hours", "off", "never x", "0 3600"),
    ("whole-hours-with-a-timer", "off", "never on_delay(x, 2 h)", "0 3600 10800"),
    ("whole-minutes", "off", "never on_delay(x, 3 min)", "0 60 240"),
    ("tenths-of-a-second", "off", "never on_delay(x, 2.5 s)", "0 0.1 2.6"),
]


@pytest.mark.parametrize(("first", "asked", "times"), [pytest.param(*row[1:], id=row[0]) for row in CASES])
def test_earliest_on_the_coarsest_grid(first: str, asked: str, times: str) -> None:
    """One grid of h, min, s, 0.1 s, ... for all moments of the story."""
    story = verdicts(program(TEXT.format(first=first, asked=asked)))["d"].story
    assert story is not None
    assert " ".join(seconds(step.time) for step in story.steps) == times
