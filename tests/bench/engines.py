"""How long each engine takes for the families, and what it says: `python -m tests.bench.engines [NAME ...]`.

Each question has ten seconds. The table in DEVELOPERS.md was printed by this.
"""

from __future__ import annotations

import sys

from logiccheck.engine.check import check_program
from logiccheck.engine.engines import BOTH, Engine
from tests.bench.families import family
from tests.oracle.loading import loaded

NAMES = (
    "count:20",
    "count:40",
    "count:200",
    "mix:10",
    "two:5",
    "par:20",
    "indep:20",
    "chain:6",
    "countbad:5",
    "both:20",
)
WAYS = {"refinement": {Engine.REFINEMENT}, "zones": {Engine.ZONES}, "both": BOTH}
SECONDS = 10.0


def told(name: str) -> str:
    """One row: for each way what was decided, and in how many seconds."""
    program = loaded(family(name))
    cells = []
    for engines in WAYS.values():
        verdict = check_program(program, SECONDS, engines=engines).verdicts[0]
        cells.append(f"{verdict.kind.value} {verdict.seconds:.2f}")
    return " | ".join([name, *cells])


if __name__ == "__main__":
    print(" | ".join(["family", *WAYS]))
    for each in sys.argv[1:] or NAMES:
        print(told(each), flush=True)
