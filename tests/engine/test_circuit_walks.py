"""The circuit of a moment and the reference interpreter agree on every signal along random walks."""

from __future__ import annotations

from random import Random

import pytest

from tests.campaign import seeds
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


COILS = [
    "o",
    "not o",
    "o xor k",
    "off_delay(o, 2 s)",
    "bistable(set o, reset h)",
    "rises(o) or k and x",
    "one_shot(not o, 1 s)",
]


@pytest.mark.parametrize("coil", COILS)
def test_coils_that_name_an_output(coil: str) -> None:
    """A coil sees the output as it was in the reaction before."""
    program = loaded(f"""
vehicle "T"
world
    x contact
    h contact
harness
    source plus
    wire feed from plus when x, from plus when k
    wire x_wire from plus when h, from plus when k
    relay k coil {coil} supply plus
controller "Box" powered by feed
    sense s from x_wire live
    output o when s xor on_delay(s, 3 s)
""")
    seen = [tag for seed in range(3) for tag in Walk(program, Random(seed)).go(MOMENTS)]
    assert "settled" in seen


@pytest.mark.campaign
def test_circuit_and_interpreter_agree_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        walk(each, walks=10)
