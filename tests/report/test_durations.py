"""Times as people say them, and as the language reads them back."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.report.durations import said, written


@pytest.mark.parametrize(
    ("micros", "words"),
    [
        (0, "0 s"),
        (3_000_000, "3 s"),
        (300_000, "0.3 s"),
        (80_000, "80 ms"),
        (80_500, "80.5 ms"),
        (1, "0.001 ms"),
        (1_250_000, "1.25 s"),
        (60_000_000, "1 min"),
        (242_000_000, "4 min 2 s"),
        (242_100_000, "4 min 2.1 s"),
        (3_600_000_000, "1 h"),
        (5_400_000_000, "1 h 30 min"),
        (3_601_000_000, "1 h 1 s"),
        (Fraction(1_000_000, 3), "1000/3 ms"),
    ],
)
def test_said(micros: Fraction | int, words: str) -> None:
    """Whole units first, the smallest decimal last, never a float."""
    assert said(micros) == words


@pytest.mark.parametrize(
    ("micros", "words"),
    [(242_100_000, "242.1 s"), (0, "0 s"), (Fraction(1, 2), "0.0000005 s"), (Fraction(1, 3), "1/3 us")],
)
def test_written(micros: Fraction | int, words: str) -> None:
    """One quantity in seconds, as a scenario writes it."""
    assert written(micros) == words
