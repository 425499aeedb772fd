"""The benchmark in the test suite: the ratio is printed, and a check that became many times slower is noticed."""

from __future__ import annotations

import pytest

from tests.bench.ratio import measure, told

MOST = 10.0  # measured: 3, on two cores
MOST_WITH_LINT = 30.0


@pytest.mark.slow
def test_ratio(capsys: pytest.CaptureFixture[str]) -> None:
    """A check of the coffee van takes no more than so many times what importing the libraries takes."""
    check, linted, imports = measure(2)
    with capsys.disabled():
        print(f"\n{told(check, linted, imports)}")
    assert check / imports < MOST
    assert linted / imports < MOST_WITH_LINT
