"""The circuit of the search and the relation of the audit are the same moment, though neither knows the other."""

from __future__ import annotations

import pytest

from logiccheck.engine.settle import settle
from logiccheck.model.circuit.reaction import Forms
from tests.audit.twoways import TwoWays
from tests.campaign import seeds
from tests.examples.reading import Example, examples, read
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 150
MOST_REPEATS = 4  # of a program that is looked at


def unlike(seed: int) -> list[str] | None:
    """What differs in a random program; None if moments take long to settle."""
    program = loaded(random_program(seed).text)
    depth = settle(program, Forms())
    return TwoWays(program, depth).unlike() if len(depth.moment.reactions) <= MOST_REPEATS + 1 else None


@pytest.mark.parametrize("example", examples(), ids=lambda example: example.name)
def test_examples(example: Example) -> None:
    """Every stored bit, timer, line of what is given, breach and case."""
    assert TwoWays(read(example.file.read_text(encoding="utf-8"))).unlike() == []


def test_random_programs() -> None:
    """The same of random programs, nearly all of which are looked at."""
    found = {seed: unlike(seed) for seed in range(SEEDS)}
    assert {seed: each for seed, each in found.items() if each} == {}
    assert sum(each is None for each in found.values()) < SEEDS / 10


@pytest.mark.campaign
def test_random_programs_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    assert [each for each in seeds() if unlike(each)] == []
