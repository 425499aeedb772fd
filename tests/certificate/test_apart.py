"""What proves a certificate again stands apart from what found it, and z3 is loaded by nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.calling import EXAMPLES, python

LOADED = """
import sys
from importlib import import_module
for name in {names}:
    import_module("logiccheck." + name)
print("loaded:", *sorted(sys.modules))
"""

DOUBTED = ("logiccheck.engine", "logiccheck.model", "logiccheck.logic", "logiccheck.require", "pysat", "sympy", "lark")
VAN = EXAMPLES / "first-steps" / "van.circuit"


def loaded_by(names: list[str], folder: Path) -> list[str]:
    done = python(LOADED.format(names=names), folder)
    assert done.returncode == 0, done.stderr
    return done.stdout.split("loaded:")[1].split()


def test_the_second_proof_loads_nothing_of_the_first(tmp_path: Path) -> None:
    """In a fresh process: no engine, circuit, boolean form or observer, and no SAT solver."""
    there = loaded_by(["certificate.recheck", "certificate.reading"], tmp_path)
    assert "z3" in there
    assert [name for name in there if name.startswith(DOUBTED)] == []


@pytest.mark.parametrize(
    "names",
    [["session.checking", "session.rechecking"], ["certificate.written", "certificate.taken", "certificate.reading"]],
)
def test_only_the_second_proof_loads_z3(names: list[str], tmp_path: Path) -> None:
    """Neither checking nor writing needs it."""
    assert "z3" not in loaded_by(names, tmp_path)
