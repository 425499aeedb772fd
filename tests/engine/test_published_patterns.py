"""Ready-made verdicts of timed patterns on one course each, put to the engine as `tests.engine.following` does.

Patterns: S. Konrad, B. Cheng, "Real-time specification patterns", ICSE 2005; the courses in unit steps and their
verdicts are by definition. Here time is dense: a value at step k holds in
[k, k + 1). `for longer than t` and `no later than t` let exactly t pass, and `lasting t` asks for nothing at exactly t:
of the two readings of a minimum duration it is the half-open one, and three steps are enough for 3 s.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.engine.verdict import Kind
from tests.engine.following import last, so_far, verdicts
from tests.model.driven import SECOND
from tests.oracle.loading import loaded

PULSE = {"p": "[1,3)"}
ANSWERED = {"p": "[3,4)", "s": "[6,7)"}
HELD = {"p": "[3,4)", "s": "[3,6)"}
AGAIN = {"p": "[0,1) [4,5) [9,10)"}
BEGINS = "p becomes on and {course}"
WITHIN = "while {course} and not on_delay(true, 10 s)"

ROWS = [
    ("minimum-duration-2", PULSE, f"{BEGINS} calls for p lasting 2 s", None),
    ("minimum-duration-3", PULSE, f"{BEGINS} calls for p lasting 3 s", "at 3"),
    ("maximum-duration-2", PULSE, f"never p {WITHIN} for longer than 2 s", None),
    ("maximum-duration-1", PULSE, f"never p {WITHIN} for longer than 1 s", "after 2"),
    ("response-3", ANSWERED, f"{BEGINS} calls for s no later than 3 s", None),
    ("response-2", ANSWERED, f"{BEGINS} calls for s no later than 2 s", "after 5"),
    ("invariance-2", HELD, f"{BEGINS} calls for s lasting 2 s", None),
    ("invariance-3-half-open", HELD, f"{BEGINS} calls for s lasting 3 s", None),
    ("invariance-longer-than-3", HELD, f"{BEGINS} calls for s lasting 3001 ms", "at 6"),
    ("recurrence-4", AGAIN, f"never not p {WITHIN} for longer than 4 s", None),
    ("recurrence-3", AGAIN, f"never not p {WITHIN} for longer than 3 s", "after 8"),
]


@pytest.mark.parametrize(("name", "course", "line", "ends"), ROWS, ids=[f"7.05-{row[0]}" for row in ROWS])
def test_pattern(name: str, course: dict[str, str], line: str, ends: str | None) -> None:
    """What the sentence says of just this course, and when it is first known not to hold."""
    follows = so_far(course)
    excused = f", excused by not {follows}" if "calls for" in line else ""
    vehicle = loaded(
        'vehicle "T"\nworld\n    p contact\n    s contact\nrequirements\n'
        f"    danger d {line.format(course=follows)}{excused}\n"
        f"    function followed possible on_delay(true, 10 s) and {follows}\n"
    )
    found = verdicts(vehicle)
    assert found["followed"].kind is Kind.PROVED
    if ends is None:
        assert found["d"].kind is Kind.PROVED
        return
    word, time = ends.split()
    late = last(found["d"]) - Fraction(time) * SECOND
    story = found["d"].story
    assert story is not None
    assert story.overdue is (word == "after")
    assert late == 0
