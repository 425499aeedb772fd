"""The circuit of a moment and the reference interpreter agree on every signal along random walks."""

from __future__ import annotations

import os
from random import Random

import pytest

from tests.engine.walking import Walk
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 60
WALKS = 3  # of each program
MOMENTS = 25


def walk(seed: int, walks: int = WALKS) -> list[str]:
    """What was seen on random walks of one program."""
    made = random_program(seed)
    program, random = loaded(made.text), Random(seed)
    seen: list[str] = []
    for _ in range(walks):
        try:
            seen += Walk(program, random).go(MOMENTS)
        except AssertionError as error:
            raise AssertionError(f"program {seed}: {error}\n{made.text}") from error
    return seen


def test_circuit_and_interpreter_agree() -> None:
    """In each reaction of each moment; and the walks are not dull."""
    seen = [tag for seed in range(SEEDS) for tag in walk(seed)]
    shares = {"settled": 0.9, "timer": 0.7, "repeats": 0.02, "unsettled": 0.02, "asleep": 0.1}
    assert {tag: seen.count(tag) / (SEEDS * WALKS) > share for tag, share in shares.items()} == dict.fromkeys(
        shares, True
    )


@pytest.mark.campaign
def test_circuit_and_interpreter_agree_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    seed, count = int(os.environ.get("CAMPAIGN_SEED", "1000000")), int(os.environ.get("CAMPAIGN_COUNT", "60"))
    for each in range(seed, seed + count):
        walk(each, walks=10)
