"""How long `faults` of a vehicle takes, as a multiple of one `check`: `python -m tests.bench.faults [FILE]`.

Both are timed as whole processes in the same run, one after the other, the check first; a check looks for no edits and
no findings. What counts is the time of the processor, so that other work on the machine changes little. Wanted is less
than a fifth of the number of faults: then what is proved of all faults at once pays.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from tests.calling import EXAMPLES, ROOT, environment

VAN = EXAMPLES / "coffee-van" / "van.circuit"
PART = 5  # of so many faults, one check each is what they may take
TIMED = """
import os, subprocess, sys
subprocess.run(sys.argv[1:], check=False)
print(os.times().children_user, file=sys.stderr)
"""  # a process of its own, so that nothing else that was begun is counted


def seconds(*arguments: str) -> tuple[float, str]:
    """Processor time of a call, the user's, and what it printed."""
    command = [sys.executable, "-c", TIMED, sys.executable, "-m", "logiccheck", *arguments]
    done = subprocess.run(command, cwd=ROOT, env=environment(), capture_output=True, encoding="utf-8", check=False)
    return float(done.stderr.split()[-1]), done.stdout


def measure(path: Path) -> tuple[int, float, float]:
    """How many faults there are; the seconds of a check, and of all faults."""
    check, _ = min(seconds("check", str(path), "--lint", "0", "--edits", "0") for _ in range(2))
    faults, printed = seconds("faults", str(path), "--json")
    return len(json.loads(printed)["report"]["faults"]["effects"]), check, faults


def told(path: Path) -> str:
    """The measurement in one line."""
    count, check, faults = measure(path)
    ratio = f"ratio {faults / check:.1f}, wanted below {count / PART:.1f}"
    return f"{path.parent.name}: {count} faults, a check {check:.2f} s, all faults {faults:.1f} s, {ratio}"


if __name__ == "__main__":
    print(told(Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else VAN))
