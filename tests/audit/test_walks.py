"""The relation of the audit, the reference interpreter and the judge agree along random walks."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from tests.audit.walking import Walk
from tests.campaign import seeds
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 250
WALKS = 3  # of each program
MOMENTS = 16

FORMS = ("Never", "NeverLonger", "CallsWithin", "CallsLasting", "OnlyAfter", "WaitsFor", "Possible")
GIVEN = ("Excluded", "LastsAtLeast", "LastsAtMost", "ChangesOnlyWhile", "AfterLasting")


def walk(seed: int) -> Counter[str]:
    """What was seen on walks of one program."""
    made = random_program(seed)
    program, random = loaded(made.text), Random(seed)
    seen: Counter[str] = Counter()
    for _ in range(WALKS):
        each = Walk(program, random)
        try:
            each.go(MOMENTS)
        except AssertionError as error:
            raise AssertionError(f"program {seed}: {error}\n{made.text}") from error
        seen.update(each.seen)
    return seen


def test_walks() -> None:
    """All that is stored of the vehicle, when each requirement is first broken, and when each line of what is given."""
    seen = sum((walk(seed) for seed in range(SEEDS)), Counter[str]())
    for form in FORMS:
        assert seen[f"{form} broken"] >= 3, seen
        assert seen[f"{form} kept"] >= 3, seen
    for given in GIVEN:
        assert seen[f"{given} broken"] >= 3, seen
        assert seen[f"{given} met"] >= 3, seen


@pytest.mark.campaign
def test_walks_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        walk(each)
