"""The landing gear with another switch: what is left of the margins of its monitors.

The source stands at the head of `landing-gear.circuit`.
"""

from __future__ import annotations

import pytest

from tests.published.written import answered, read, written


@pytest.mark.parametrize(("closes_after", "quiet"), [("0.8", "proved"), ("1.0", "proved"), ("1.001", "fails")])
def test_slow_switch(closes_after: str, quiet: str) -> None:
    """A switch that needs 1.0 s to close leaves its monitor no margin, and is still in time: bounds are closed."""
    text = written("landing-gear").replace("closes_after = 0.8 s", f"closes_after = {closes_after} s")
    assert answered(read(text), only=("quiet_open", "quiet_closed")) == {"quiet_open": quiet, "quiet_closed": "proved"}


@pytest.mark.parametrize(("stays_for", "quiet"), [("20", "proved"), ("20.7", "proved"), ("20.701", "fails")])
def test_switch_that_stays(stays_for: str, quiet: str) -> None:
    """Closed 0.8 s after the move, it may stay 0.7 s longer than 20 s until the other monitor speaks."""
    text = written("landing-gear").replace("stays_for    = 20 s", f"stays_for = {stays_for} s")
    assert answered(read(text), only=("quiet_open", "quiet_closed")) == {"quiet_open": "proved", "quiet_closed": quiet}
