"""Columns of a terminal."""

from __future__ import annotations

import pytest

from logiccheck.base.widths import columns_of, padded


@pytest.mark.parametrize(
    ("text", "columns"), [("", 0), ("pump", 4), ("\u00fc", 1), ("\u6cf5", 2), ("e\u0301", 1), ("\uff21", 2)]
)
def test_columns(text: str, columns: int) -> None:
    """Wide letters take two, combining marks none."""
    assert columns_of(text) == columns
    assert columns_of(padded(text, 6)) == 6
