"""What one edit takes in `unguarded`, as a multiple of one check of the same file: `python -m tests.bench.unguarded`.

Both are timed in this process, in CPU seconds, after all is loaded.
"""

from __future__ import annotations

import time
from pathlib import Path

from logiccheck.engine.check import check_program
from logiccheck.explain.guarding.guarding import guard
from logiccheck.lang.load import load
from logiccheck.lang.reading import Unreadable
from tests.calling import EXAMPLES

FILES = (EXAMPLES / "first-steps" / "van.circuit", EXAMPLES / "relay-only" / "boat.circuit")
SECONDS = 10.0


def measure(path: Path) -> tuple[int, float, float]:
    """How many edits there are, the seconds of a check, and those for each edit."""

    def read(name: str) -> bytes | Unreadable:
        file = path.parent / name
        return file.read_bytes() if file.exists() else Unreadable.MISSING

    loaded = load(path.name, read)
    assert loaded.program is not None
    check_program(loaded.program, SECONDS)  # loads what is loaded late
    begin = time.process_time()
    found = check_program(loaded.program, SECONDS)
    checked = time.process_time()
    guarded = guard(loaded.program, path.name, loaded.texts, found, (), SECONDS, lambda _: None)
    edits = len(guarded.tried)
    return edits, checked - begin, (time.process_time() - checked) / edits


def told(path: Path) -> str:
    """The measurement in one line."""
    edits, check, each = measure(path)
    return f"{path.parent.name}: {edits} edits, a check {check:.2f} s, an edit {each:.2f} s, ratio {each / check:.1f}"


if __name__ == "__main__":
    for file in FILES:
        print(told(file))
