"""Twenty answers of `why` word for word, none longer than three lines."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from logiccheck.cli.reader import DiskReader
from logiccheck.cli.values import instant
from logiccheck.session.asking import Why, why
from tests.calling import EXAMPLES

TABLE = Path(__file__).with_name("first_answers.toml")
FIRST = tomllib.loads(TABLE.read_text(encoding="utf-8"))["first"]


@pytest.mark.parametrize("row", FIRST, ids=lambda row: f"{row['scenario']}-{row['name']}-{row['at']}")
def test_the_first_answer(row: dict[str, Any]) -> None:
    """The sentence that opens the report, since when, and how few facts that is."""
    file = (EXAMPLES / row["file"]).as_posix()
    asked = Why(row["name"], row["scenario"], None, instant(row["at"]))
    report = why(file, DiskReader(file), asked, 10.0, lambda _: None)
    assert report.why is not None
    assert [report.opening, *report.why.answer] == row["answer"]
    assert len(row["answer"]) <= 3


def test_ten_of_each_vehicle() -> None:
    """The table is as long as it says, and no row stands twice."""
    files = [row["file"] for row in FIRST]
    assert sorted(map(files.count, set(files))) == [10, 10]
    assert len({(row["file"], row["scenario"], row["name"], row["at"]) for row in FIRST}) == 20
