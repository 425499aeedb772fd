"""Every proof of the examples and of random programs passes; and the audit has seen proofs of every kind."""

from __future__ import annotations

from collections import Counter

import pytest

from logiccheck.audit.certificate import Ahead
from logiccheck.engine.verdict import Kind
from logiccheck.lang.program import Possible
from tests.audit.auditing import Watched, watched
from tests.campaign import seeds
from tests.examples.reading import Example, examples, read
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

__all__ = ["watched"]

SEEDS = 200


def kinds(watched: Watched) -> Counter[str]:
    """How often each kind of question was doubted, and how many proofs spoke of deadlines."""
    found = Counter(type(seen.question).__name__ for seen in watched.seen)
    names = [{name for clause in seen.certificate.clauses for name, _ in clause} for seen in watched.seen]
    found["deadlines"] = sum(any(isinstance(name, Ahead) for name in each) for each in names)
    return found


@pytest.mark.parametrize("example", examples(), ids=lambda example: example.name)
def test_examples(example: Example, watched: Watched) -> None:
    """As many proofs as there are proved requirements, at least."""
    check = watched.check(read(example.file.read_text(encoding="utf-8")))
    assert [seen.question for seen in watched.seen if seen.refusal is not None] == []
    proved = sum(v.kind is Kind.PROVED and v.story is None for v in check.verdicts)
    assert kinds(watched)["Broken"] + kinds(watched)["Shorted"] >= proved > 0
    assert kinds(watched)["Unsettled"] == 1


def test_random_programs(watched: Watched) -> None:
    """No proof is refused, and none is left out: of requirements that are proved, and of cases that do not occur."""
    found: Counter[str] = Counter()
    for seed in range(SEEDS):
        check = watched.check(loaded(random_program(seed).text))
        found += kinds(watched)
        doubted = Counter(type(seen.question).__name__ for seen in watched.seen)
        empty = [v for v in check.verdicts if v.kind is Kind.NO_CASE]
        proved = [v for v in check.verdicts if v.kind is Kind.PROVED and v.story is None]
        unbroken = [v for v in (*proved, *empty) if not isinstance(v.requirement.form, Possible)]
        never = [v for v in check.verdicts if v.kind is Kind.FAILS and v.story is None]
        assert doubted["Broken"] + doubted["Shorted"] >= len(unbroken) + len(never), seed
        assert doubted["Occurs"] + doubted["TurnsOn"] >= len(empty), seed
    least = {"Broken": 200, "Occurs": 50, "TurnsOn": 5, "Shorted": 1, "Stuck": 20, "Unsettled": 150, "deadlines": 50}
    assert {kind: found[kind] >= count for kind, count in least.items()} == dict.fromkeys(least, True), found


@pytest.mark.campaign
def test_random_programs_at_length(watched: Watched) -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        watched.check(loaded(random_program(each).text))
