"""The audit stands apart: it loads nothing of what it doubts, and no library."""

from __future__ import annotations

from pathlib import Path

from logiccheck.audit import check
from tests.calling import python

LOADED = """
import sys
from importlib import import_module
for name in {names}:
    import_module("logiccheck.audit." + name)
print("loaded:", *sorted(sys.modules))
"""

DOUBTED = ("logiccheck.engine", "logiccheck.model.circuit", "logiccheck.logic", "logiccheck.require")
LIBRARIES = ("pysat", "sympy", "lark", "rich", "z3")


def test_the_audit_loads_nothing_that_it_doubts(tmp_path: Path) -> None:
    """In a fresh process: nothing of engines, circuits, boolean forms and observers, and no library from outside."""
    names = sorted(path.stem for path in Path(check.__file__).parent.glob("*.py") if path.stem != "__init__")
    assert len(names) > 10
    done = python(LOADED.format(names=names), tmp_path)
    assert done.returncode == 0, done.stderr
    there = done.stdout.split("loaded:")[1].split()
    assert "logiccheck.audit.check" in there
    assert [name for name in there if name.startswith(DOUBTED) or name.split(".")[0] in LIBRARIES] == []
