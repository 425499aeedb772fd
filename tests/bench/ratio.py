"""How long `check` of the coffee van takes, as a multiple of importing libraries: `python -m tests.bench.ratio`.

Both are timed as whole processes in the same run, in turn, and the fastest of each counts: so the ratio says about the
same on a fast and on a slow machine. Python keeps what it compiles, as in an installation, whatever the environment
says: the libraries are compiled already, and so must be what is measured against them.
"""

from __future__ import annotations

import subprocess
import sys
import time

from tests.calling import EXAMPLES, ROOT, environment

VAN = EXAMPLES / "coffee-van" / "van.circuit"
IMPORTS = [sys.executable, "-c", "import sympy, lark, rich"]
CHECK = [sys.executable, "-m", "logiccheck", "check", str(VAN), "--lint", "0"]
WITH_LINT = CHECK[:-2]


def seconds(command: list[str]) -> float:
    """Wall time of the command from start to end."""
    kept = environment(PYTHONDONTWRITEBYTECODE="")
    begin = time.perf_counter()
    subprocess.run(command, cwd=ROOT, env=kept, stdout=subprocess.DEVNULL, check=False)
    return time.perf_counter() - begin


def measure(rounds: int) -> tuple[float, float, float]:
    """The fastest `check` without lint, the fastest with it, and the fastest import of so many rounds, in seconds."""
    taken = [(seconds(CHECK), seconds(WITH_LINT), seconds(IMPORTS)) for _ in range(rounds)]
    check, linted, imports = (min(each) for each in zip(*taken, strict=True))
    return check, linted, imports


def told(check: float, linted: float, imports: float) -> str:
    """The measurement in one line."""
    return (
        f"check of the coffee van {check:.2f} s, imports alone {imports:.2f} s, ratio {check / imports:.2f}; "
        f"with lint {linted:.2f} s, ratio {linted / imports:.2f}"
    )


if __name__ == "__main__":
    print(told(*measure(3)))
