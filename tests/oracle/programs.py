"""Random small programs, as text in the language: every construct, and timing on which verdicts hang exactly.

`random_program(seed)` is the same for ever for a seed; `programs()` is the same generator as a Hypothesis strategy. A
run can say which constructs its programs held, and what came of them (`Mix`).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from random import Random

from hypothesis import strategies as st

from tests.oracle.asked import Asked
from tests.oracle.clockwork import Clockwork
from tests.oracle.controller import Controller
from tests.oracle.vehicle import Vehicle

CONSTRUCTS = {
    "at first": "at first ",
    "switch": r"off \| low \| high$",
    "one by one": "one by one",
    "number": r" \.\. ",
    "without jumps": "without jumps",
    "is not": r"^    (?!danger|damage|function).* is not ",
    "in { }": r" in \{",
    **{f"comparison: {word}": rf" {word} \d+ V(?! until)" for word in ("above", "below", "at least", "at most", "is")},
    "two thresholds": " until below ",
    "source when": "source .* when",
    "wire to ground": "wire .* to ground",
    "live and grounded": "wire short",
    "change-over": "otherwise",
    "join": "join ",
    "diode": "diode ",
    "load": "load ",
    "relay": "relay k1",
    "relay with timer": r"relay .* coil \w+\(",
    "relay with memory": "coil bistable",
    "relay with supply": "relay .* supply",
    "relay on an output": "relay k_o",
    "relay race": "relay x1",
    "no controller": r"\A(?!(.|\n)*\ncontroller)",
    "power by a wire": r"powered by w",
    "power by a relay": "relay hold",
    "power by an own output": "feeds keep",
    "start-up delay": "powered by .* after",
    "sense grounded": "sense .* grounded",
    "number sense": r"sense \w+ from [abc]$",
    "filter": " filter ",
    "substitute": " substitute ",
    "fed by": " fed by ",
    "feeds": " feeds ",
    "tolerance": r" \+- |from \d+ \w+ to \d+",
    **{
        f"box: {word}": rf"^    (rule|output) .*{word}\b"
        for word in (
            "on_delay",
            "off_delay",
            "one_shot",
            "blink",
            "bistable",
            "set wins",
            "retained",
            "impulse_relay",
            "rises",
            "falls",
            "previous",
            "at most one of",
            "and",
            "or",
            "xor",
            "not",
        )
    },
    "chain of timers": r"^    rule r\d = \w+\((not )?r\d\b",
    "chatter": r"rule (r\d) = .*not previous\(\1\)",
    "given: never": "^    never ",
    "given: always": "^    always ",
    "given: at least": "lasts at least",
    "given: at most": "lasts at most",
    "given: changes only while": "changes only while",
    "given: after": r"^    (?!danger|damage|function).* after .* has lasted",
    "given: timer": r"changes only while \w+\(",
    **{
        f"asked: {word}": rf"^    (danger|damage|function) .*\b{word}"
        for word in (
            "never",
            "always",
            "while",
            "for longer than",
            "even for an instant",
            "no later than",
            "lasting",
            "excused by",
            "only after",
            "has lasted",
            "since",
            "waits for .* after",
            "waits for(?!.* after)",
            "possible",
            "rises",
            "falls",
            "becomes",
            "on_delay",
            "off_delay",
            "one_shot",
            "blink",
            "bistable",
            "impulse_relay",
            "previous",
            "powered",
        )
    },
}  # each construct, and how it shows in a text


@dataclass(frozen=True)
class Made:
    """A program as text."""

    seed: int
    text: str

    @property
    def constructs(self) -> list[str]:
        """The constructs that are in it."""
        return [name for name, shape in CONSTRUCTS.items() if re.search(shape, self.text, re.MULTILINE)]


def random_program(seed: int, rich: bool = False) -> Made:
    """The program of this seed; `rich` in what the coils of relays hold."""
    vehicle = Vehicle(Random(seed), rich)
    if not rich and vehicle.maybe(0.3):
        Clockwork(vehicle).build()
        return Made(seed, vehicle.text())
    vehicle.add_world()
    vehicle.add_harness()
    if vehicle.maybe(0.93):
        Controller(vehicle).build()
    asked = Asked(vehicle)
    asked.add_given()
    asked.add_requirements()
    return Made(seed, vehicle.text())


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
    undecided: Counter[str] = field(default_factory=Counter)  # by the engine: why
    skipped: int = 0  # programs too big to explore

    def add(self, made: Made) -> None:
        self.programs += 1
        self.constructs.update(made.constructs)

    def note(self, kind: str, moments: int | None, undecided: str = "") -> None:
        """One requirement: what is so of it, and for a failure the length of its story; and why the engine does not
        know, where it does not."""
        self.verdicts[kind] += 1
        if undecided:
            self.undecided[undecided] += 1
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

    def _of_all(self, count: int) -> str:
        return f"{count} of {self.requirements}: {100 * count / max(1, self.requirements):.2f} %"

    def lines(self) -> Iterable[str]:
        """The summary, for people."""
        yield f"{self.programs} programs ({self.skipped} too big), {self.requirements} requirements"
        for kind, count in self.verdicts.most_common():
            yield f"  {kind:12} {count:6} {100 * self.share(kind):5.1f} %"
        yield f"  not decided by the engine {self._of_all(self.undecided.total())}"
        for why, count in self.undecided.most_common():
            yield f"    {why} {self._of_all(count)}"
        yield "  moments of failures: " + ", ".join(f"{n}: {self.moments[n]}" for n in sorted(self.moments))
        for name in CONSTRUCTS:
            yield f"  {name:32} {100 * self.constructs[name] / max(1, self.programs):5.1f} % of programs"
