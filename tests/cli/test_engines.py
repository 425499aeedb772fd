"""`check --engine` and `--times`: which engine proves, and who says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.families import family
from tests.calling import call


def counting(folder: Path) -> str:
    """A vehicle in which a blinker is counted, as refinement cannot."""
    path = folder / "counting.circuit"
    path.write_text(family("count:9"), encoding="utf-8")
    return str(path)


def test_one_engine_alone(tmp_path: Path) -> None:
    """It decides, and is named with its time where that is asked for; else nobody is."""
    done = call(
        "check", counting(tmp_path), "--engine", "zones", "--times", "--budget", "60", "--lint", "0", cwd=tmp_path
    )
    assert "proved 1, " in done.stdout
    line = next(line for line in done.stdout.splitlines() if line.startswith("Time for asked: "))
    assert line.endswith(" s. Decided by: zones.")
    assert (
        "Time for"
        not in call(
            "check", counting(tmp_path), "--engine", "zones", "--budget", "60", "--lint", "0", cwd=tmp_path
        ).stdout
    )


def test_the_other_engine_alone(tmp_path: Path) -> None:
    path = tmp_path / "chain.circuit"
    path.write_text(family("chain:2"), encoding="utf-8")
    done = call("check", str(path), "--engine", "refinement", "--times", "--budget", "60", "--lint", "0", cwd=tmp_path)
    assert "proved 1, " in done.stdout
    assert " s. Decided by: refinement.\n" in done.stdout


@pytest.mark.parametrize("name", ["zone", "both", ""])
def test_no_such_engine(name: str, tmp_path: Path) -> None:
    done = call("check", counting(tmp_path), "--engine", name, cwd=tmp_path)
    assert done.returncode == 2
    assert "refinement" in done.stderr
