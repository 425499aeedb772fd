"""Finds what kills each mutant and writes it down: `python -m tests.mutants.record [--alone] [NAME ...]`.

Looks for a test that fails: first the one that is written down already, then others. With `--alone` it looks for the
first random program on which the engine and the explorer contradict each other. With names only for these mutants.
"""

from __future__ import annotations

import datetime
import platform
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.mutants.field import Field
from tests.mutants.killed import Row, recorded, write
from tests.mutants.mutants import all_mutants

ALONE = 60  # random programs that are played without tests: 10 to 30 seconds for a mutant that they do not kill


def record(names: Sequence[str], alone: bool) -> None:
    """Writes the table after each mutant, so that it can be interrupted."""
    mutants, rows = all_mutants(), recorded()
    asked = [mutant for mutant in mutants if not names or mutant.name in names]
    with tempfile.TemporaryDirectory() as folder:
        field = Field(Path(folder))
        for mutant in asked:
            row = rows.get(mutant.name, Row(""))
            if alone:
                with field.planted(mutant):
                    row = Row(row.killer, field.by_programs(*map(str, range(ALONE))) or "")
            else:
                row = Row(field.killer(mutant, row.killer or None) or "", row.programs)
            rows[mutant.name] = row
            print(f"{mutant.name}: {row.killer or 'SURVIVES'}; {row.programs or '-'}", flush=True)
            write(mutants, rows, _how())


def _how() -> str:
    today = datetime.date.today().isoformat()
    when = f"the last of them on {today} with CPython {platform.python_version()}"
    return f"""Rows are found one by one, as `python -m tests.mutants.record` does (the last column with `--alone`),
{when}. The package goes on after that: `python -m pytest -m mutants tests/mutants` looks at each again.

*Killed by*: one test that fails with the mutant and passes without it; others may fail, too. *By the random programs
alone*: the first of the programs 0 to {ALONE - 1} of `tests/oracle` on which the engine and the explorer contradict
each other, or one of them breaks off; `-` if there is none."""


if __name__ == "__main__":
    record([name for name in sys.argv[1:] if name != "--alone"], "--alone" in sys.argv[1:])
