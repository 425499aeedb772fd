"""Finds what kills each mutant and writes it down: `python -m tests.mutants.record [NAME ...]`.

With names only these rows are found anew. Looks for a test first, and then what the random programs do without tests.
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


def record(names: Sequence[str]) -> None:
    """Writes the table after each mutant, so that it can be interrupted."""
    mutants, rows = all_mutants(), recorded()
    today = datetime.date.today().isoformat()
    how = f"Found by `python -m tests.mutants.record`, last on {today}, with CPython {platform.python_version()}."
    with tempfile.TemporaryDirectory() as folder:
        field = Field(Path(folder))
        for mutant in mutants:
            if not names or mutant.name in names:
                killer = field.killer(mutant) or ""
                with field.planted(mutant):
                    programs = field.by_programs() or ""
                rows[mutant.name] = Row(killer, programs)
                print(f"{mutant.name}: {killer or 'SURVIVES'}; {programs or 'not by programs'}", flush=True)
                write(mutants, rows, how)


if __name__ == "__main__":
    record(sys.argv[1:])
