"""Runs the random programs of the agreement test up to the first complaint: `python -m tests.mutants.first_complaint`.

With numbers as arguments only the programs of these seeds. Prints the complaint and ends with 1 if there is one.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable

from tests.oracle.programs import Mix, random_program
from tests.oracle.test_agreement import SEEDS, run


def first_complaint(seeds: Iterable[int]) -> str | None:
    """What engine and explorer contradict each other in first, or how one of them breaks off."""
    for seed in seeds:
        try:
            complaints = run(Mix(), random_program(seed))
        except Exception as error:  # a mutant may raise anything
            return f"program {seed}: {type(error).__name__}"
        if complaints:
            return complaints[0]
    return None


if __name__ == "__main__":
    found = first_complaint([int(argument) for argument in sys.argv[1:]] or range(SEEDS))
    if found is not None:
        print(found)
        sys.exit(1)
