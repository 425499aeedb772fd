"""The benchmark in the test suite: an edit that took many times longer than before is noticed."""

from __future__ import annotations

import pytest

from tests.bench.unguarded import FILES, measure

MOST = 12.0  # measured: 2.5


@pytest.mark.slow
def test_an_edit_takes_no_more_than_a_few_checks() -> None:
    """Of the first steps."""
    edits, check, each = measure(FILES[0])
    assert edits
    assert each / check < MOST
