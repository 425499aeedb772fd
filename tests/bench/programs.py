"""The programs of the bench, by name: the examples, generated vehicles (`XL0`), and members of families (`count:20`)."""

from __future__ import annotations

import re

from tests.bench.families import family
from tests.bench.vehicles import vehicle
from tests.calling import EXAMPLES

EXAMPLE_TEXTS = {
    "coffee-van": EXAMPLES / "coffee-van" / "van.circuit",
    "relay-only": EXAMPLES / "relay-only" / "boat.circuit",
}
BENCH = (
    *("coffee-van", "relay-only", "S0", "M0", "M1", "L0", "L1", "XL0", "XL1"),
    *("count:20", "count:40", "countbad:10", "par:20", "indep:20", "chain:6", "mix:10", "two:5", "both:20"),
)


def text_of(name: str) -> str:
    """The text of a program of the bench."""
    if name in EXAMPLE_TEXTS:
        return EXAMPLE_TEXTS[name].read_text(encoding="utf-8")
    generated = re.fullmatch(r"([A-Z]+)(\d+)", name)
    return vehicle(generated[1], int(generated[2])) if generated else family(name)
