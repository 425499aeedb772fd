"""Random small programs, as text in the language: every construct, and timing on which verdicts hang exactly.

`random_program(seed)` is the same for ever for a seed; `programs()` is the same generator as a Hypothesis strategy. A
program knows which constructs it was made with (`marks`), so that a run can say what it covered.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from random import Random

from hypothesis import strategies as st

from tests.oracle.asked import Asked
from tests.oracle.controller import Controller
from tests.oracle.vehicle import Vehicle


@dataclass(frozen=True)
class Made:
    """A program as text, and the constructs in it."""

    seed: int
    text: str
    marks: frozenset[str]


def random_program(seed: int) -> Made:
    """The program of this seed."""
    vehicle = Vehicle(Random(seed))
    vehicle.add_world()
    vehicle.add_harness()
    if vehicle.maybe(0.93):
        Controller(vehicle).build()
    else:
        vehicle.marks.add("no controller")
    asked = Asked(vehicle)
    asked.add_given()
    asked.add_requirements()
    return Made(seed, vehicle.text(), frozenset(vehicle.marks))


def programs() -> st.SearchStrategy[Made]:
    """Random programs for Hypothesis: it draws the seed."""
    return st.integers(min_value=0, max_value=2**32 - 1).map(random_program)


@dataclass
class Mix:
    """What a run of many programs was made of, and what came of it."""

    programs: int = 0
    constructs: Counter[str] = field(default_factory=Counter)
    verdicts: Counter[str] = field(default_factory=Counter)
    moments: Counter[int] = field(default_factory=Counter)  # lengths of failures
    skipped: int = 0  # programs too big to explore

    def add(self, made: Made) -> None:
        self.programs += 1
        self.constructs.update(made.marks)

    def note(self, kind: str, moments: int | None) -> None:
        """One requirement: its verdict, and for a failure the length of its story."""
        self.verdicts[kind] += 1
        if kind == "fails" and moments:
            self.moments[moments] += 1

    @property
    def requirements(self) -> int:
        return self.verdicts.total()

    def share(self, kind: str) -> float:
        """The share of requirements with this verdict."""
        return self.verdicts[kind] / max(1, self.requirements)

    def long(self, least: int) -> float:
        """The share of requirements that fail only after at least so many moments."""
        return sum(n for moments, n in self.moments.items() if moments >= least) / max(1, self.requirements)

    def lines(self) -> Iterable[str]:
        """The summary, for people."""
        yield f"{self.programs} programs ({self.skipped} too big), {self.requirements} requirements"
        for kind, count in self.verdicts.most_common():
            yield f"  {kind:12} {count:6} {100 * self.share(kind):5.1f} %"
        yield "  moments of failures: " + ", ".join(f"{n}: {self.moments[n]}" for n in sorted(self.moments))
        for name, count in self.constructs.most_common():
            yield f"  {name:32} {100 * count / max(1, self.programs):5.1f} % of programs"
