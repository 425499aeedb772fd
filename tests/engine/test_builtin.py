"""What is asked of every vehicle, though nobody wrote it: that no wire is live and grounded at once."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from tests.oracle.loading import loaded

VEHICLE = """
vehicle "T"
world
    a contact
    b contact
    at first a is off, b is off
harness
    source plus
    wire w from plus when a, to ground when b
"""


@pytest.mark.parametrize(
    ("given", "kind", "moments"),
    [
        ("", Kind.FAILS, 2),
        ("given\n    never a and b\n", Kind.PROVED, None),
        ("given\n    never b\n", Kind.PROVED, None),
    ],
)
def test_a_short_circuit(given: str, kind: Kind, moments: int | None) -> None:
    """Both contacts at once."""
    check = check_program(loaded(VEHICLE + given + "requirements\n    function f possible w\n"))
    assert [verdict.builtin for verdict in check.verdicts] == [False, True]
    last = check.verdicts[-1]
    assert last.kind is kind
    assert (last.story.moments if last.story else None) == moments
