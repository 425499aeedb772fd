"""A long run: `python -m tests.fuzz.campaign FIRST COUNT` prints each file that makes a complaint, and the counts."""

from __future__ import annotations

import faulthandler
import resource
import sys
import time
from collections import Counter

from tests.fuzz.asked import complaints
from tests.fuzz.texts import made

BUDGET = 0.05  # seconds for one requirement
SECONDS = 60.0  # of the processor, for one file
STUCK = 900  # seconds on the clock, after which the place is printed and the run ends
MEMORY = 3 * 2**30


def main() -> int:
    first, count = int(sys.argv[1]), int(sys.argv[2])
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    came_of: Counter[str] = Counter()
    bad = 0
    begun = time.process_time()
    for seed in range(first, first + count):
        each = made(seed)
        faulthandler.dump_traceback_later(STUCK, exit=True)
        at = time.process_time()
        outcome, found = complaints(each.raw, BUDGET, SECONDS, whole=seed % 4 == 0)
        used = time.process_time() - at
        came_of[f"{each.kind} {outcome.value if outcome else 'broken'}"] += 1
        if used > 15:
            print(f"seed {seed} {each.kind}: slow, {used:.1f} s", flush=True)
        for line in dict.fromkeys(found):
            bad += 1
            print(f"seed {seed} {each.kind}: {line}", flush=True)
        if (seed - first + 1) % 1_000 == 0:
            print(f"so far {seed - first + 1}", flush=True)
    faulthandler.cancel_dump_traceback_later()
    for name, number in sorted(came_of.items()):
        print(f"{number:7} {name}")
    print(f"files {count}, complaints {bad}, processor seconds {time.process_time() - begun:.0f}")
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
