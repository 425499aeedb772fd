"""Calls `logiccheck` as a user does: a process of its own, its output as bytes or text, its exit status."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = ROOT / "examples"


def environment(**more: str) -> dict[str, str]:
    """This process's environment without what would change the looks of the output, and with `more`."""
    kept = {key: value for key, value in os.environ.items() if key not in {"NO_COLOR", "PYTHONIOENCODING", "COLUMNS"}}
    return {**kept, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", **more}


def call(*arguments: str | Path, cwd: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """`logiccheck ARGUMENTS` in the folder `cwd`, its output piped and read as UTF-8."""
    command = [sys.executable, "-m", "logiccheck", *map(str, arguments)]
    return subprocess.run(
        command, cwd=cwd, env=environment(**more), capture_output=True, encoding="utf-8", timeout=300, check=False
    )


def python(program: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """A small Python program in a process of its own that can import the package."""
    command = [sys.executable, "-c", program]
    return subprocess.run(
        command, cwd=cwd, env=environment(), capture_output=True, encoding="utf-8", timeout=300, check=False
    )
