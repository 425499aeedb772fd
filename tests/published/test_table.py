"""Every published fact of the table has a test that exists, or says why it has none; most have one."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.published.written import HERE, marked, scenarios, written

ROOT = Path(__file__).resolve().parents[2]
TABLE: dict[str, dict[str, Any]] = tomllib.loads((HERE / "table.toml").read_text(encoding="utf-8"))
SECTIONS = {"1": 12, "3": 15, "4": 11, "5": 35, "6": 6, "7": 4, "8": 21}  # how many facts of each there are
KEYS = {"fact", "source", "tests", "named", "part", "why", "open"}


def left_out(row: dict[str, Any]) -> bool:
    """Nothing of it is held: no test, or none that is decided."""
    return "why" in row or row.get("open", False)


@cache
def collected() -> frozenset[str]:
    """The names of all tests in the files that the table names, with and without their cases."""
    files = sorted({name.split("::")[0] for row in TABLE.values() for name in row.get("tests", ())})
    command = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-p", "no:cacheprovider"]
    command += ["-m", "long or not long", *files]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, encoding="utf-8", timeout=300, check=True)
    names = {line.strip() for line in done.stdout.splitlines() if "::" in line}
    return frozenset(names | {name.split("[")[0] for name in names})


def test_no_fact_is_missing() -> None:
    """The facts are all there, section by section."""
    assert Counter(number.split(".")[0] for number in TABLE) == SECTIONS
    assert all(re.fullmatch(r"\d\.\d\d[a-z]?", number) for number in TABLE)


@pytest.mark.parametrize("number", TABLE)
def test_row(number: str) -> None:
    """A fact, its source, and either tests that exist or a reason."""
    row = TABLE[number]
    assert row.keys() <= KEYS
    assert row["fact"]
    assert row["source"]
    assert ("tests" in row) != ("why" in row)
    assert "why" not in row or len(row["why"].split()) >= 8
    assert set(row.get("tests", ())) <= collected()


def test_named_stand_in_the_programs_of_the_row() -> None:
    """What a row names stands in a program that is among its tests, and each program is in some row."""
    used = set()
    for number, row in TABLE.items():
        files = set(re.findall(r"test_requirements\[([\w-]+)\]", " ".join(row.get("tests", ()))))
        played = {test.split("[")[1].rstrip("]") for test in row.get("tests", ()) if "::test_course[" in test}
        there = {name for file in files for name in marked(written(file))}
        there |= {name for file, name in scenarios() if file in files or f"{file}-{name}" in played}
        assert set(row.get("named", ())) <= there, number
        used |= files
    assert used == {path.stem for path in HERE.glob("*.circuit")}


def test_at_most_a_third_is_left_out() -> None:
    """Of all, and of each section."""
    for section, size in SECTIONS.items():
        out = [number for number, row in TABLE.items() if number.startswith(f"{section}.") and left_out(row)]
        assert 3 * len(out) <= size, out
