"""Finds what kills each mutant and writes it down: `python -m tests.mutants.record [NAME ...]`.

With names only these rows are found anew. Looks for a test first (the one that is written down already, if it kills
still), and then what some random programs do without tests.
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


def record(names: Sequence[str]) -> None:
    """Writes the table after each mutant, so that it can be interrupted."""
    mutants, rows = all_mutants(), recorded()
    with tempfile.TemporaryDirectory() as folder:
        field = Field(Path(folder))
        for mutant in mutants:
            if not names or mutant.name in names:
                likely = rows[mutant.name].killer if mutant.name in rows else ""
                killer = field.killer(mutant, likely or None) or ""
                with field.planted(mutant):
                    programs = field.by_programs(*map(str, range(ALONE))) or ""
                rows[mutant.name] = Row(killer, programs)
                print(f"{mutant.name}: {killer or 'SURVIVES'}; {programs or 'not by programs'}", flush=True)
                write(mutants, rows, _how())


def _how() -> str:
    today = datetime.date.today().isoformat()
    return f"""Found by `python -m tests.mutants.record`, last on {today}, with CPython {platform.python_version()}.

*Killed by*: one test that fails with the mutant and passes without it; others may fail, too. *By the random programs
alone*: the first of the programs 0 to {ALONE - 1} of `tests/oracle` on which the engine and the explorer contradict
each other, or one of them breaks off; `-` if there is none, also where the mutant is in a part that this does not look
at."""


if __name__ == "__main__":
    record(sys.argv[1:])
