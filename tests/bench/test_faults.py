"""The benchmark in the test suite: faults that took many times longer than before are noticed."""

from __future__ import annotations

import sys

import pytest

from tests.bench.faults import PART, measure
from tests.calling import EXAMPLES


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="the processor time of a call is not known there")
def test_all_faults_take_less_than_a_check_for_every_fifth() -> None:
    """Of the first steps."""
    count, check, faults = measure(EXAMPLES / "first-steps" / "van.circuit")
    assert count
    assert faults / check < count / PART
