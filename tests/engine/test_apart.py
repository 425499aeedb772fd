"""Whether it can happen without any coincidence, where that takes a story of quite another kind."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.apart import happens_apart
from logiccheck.model.story import Answer
from tests.engine.asking import stories
from tests.oracle.loading import loaded
from tests.oracle.written import program

TOGETHER = "a becomes on and b becomes on"
THRICE = "bistable(set c and bistable(set not c and bistable(set c)))"


@pytest.mark.parametrize(
    ("asked", "answer", "moments"),
    [
        (f"never {TOGETHER} or {THRICE}", Answer.YES, 4),
        (f"never {TOGETHER} or {THRICE} and d", Answer.YES, 5),
        (f"never {TOGETHER} or {THRICE} and c and not c", Answer.NO, None),
    ],
)
def test_another_way_takes_longer(asked: str, answer: Answer, moments: int | None) -> None:
    """a and b at one instant, or c on, off and on again."""
    contacts = tuple(f"{name} contact" for name in "abcd")
    first = "at first a is off, b is off, c is off, d is off"
    (found,) = [each for each in stories(loaded(program(asked, world=(*contacts, first)))) if not each.question.builtin]
    assert found.story.moments == 2
    said, trace = happens_apart(found.cone, found.story, True, Budget(60))
    assert said is answer
    assert (None if trace is None else len(trace)) == moments
