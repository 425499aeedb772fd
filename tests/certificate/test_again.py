"""The certificates of examples and of random programs are proved again, and agree with the check in every
requirement."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import replace

import pytest

from logiccheck.audit.certificate import Certificate
from logiccheck.certificate.document import Document
from logiccheck.certificate.judged import Rechecked
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import Check, Kind
from tests.campaign import seeds
from tests.certificate.making import certified, proved_again, standings
from tests.examples.reading import Example, examples
from tests.oracle.programs import random_program

SEEDS = 100

STANDINGS = {
    Kind.PROVED: "shown",
    Kind.NO_CASE: "no case",
    Kind.FAILS: "missing",
    Kind.NOT_DECIDED: "missing",
    Kind.BLOCKED: "missing",
}


def expected(check: Check) -> dict[str, str]:
    """By verdict; what is `possible` fails by a proof."""
    found = {}
    for verdict in check.verdicts:
        never = verdict.kind is Kind.FAILS and verdict.story is None
        name = "short circuit" if verdict.builtin else verdict.requirement.name
        found[name] = "fails" if never else STANDINGS[verdict.kind]
    return found


def whole(found: Rechecked) -> bool:
    """All that requirements rest on is shown."""
    return all(base.standing.value == "shown" for base in found.bases)


@pytest.mark.parametrize("example", examples(), ids=lambda example: example.name)
def test_examples(example: Example) -> None:
    """Every claim holds, and every requirement stands as the check said."""
    program, check, document = certified(example.file.read_text(encoding="utf-8"))
    found = proved_again(document, program)
    assert found.held == found.claims > 0
    assert whole(found)
    assert not found.strange
    assert standings(found).items() >= expected(check).items()


def test_without_a_claim() -> None:
    """Of the first sketch, each claim left out in turn: what it was about is no longer shown."""
    example = next(each for each in examples() if each.name == "first-steps")
    program, _, document = certified(example.file.read_text(encoding="utf-8"))
    before = standings(proved_again(document, program))
    for claim in document.claims:
        rest = replace(document, claims=tuple(other for other in document.claims if other is not claim))
        after = standings(proved_again(rest, program))
        whose = claim.subject.requirement or claim.subject.about.value
        assert before[whose] == "shown"
        assert after[whose] in ("missing", "case missing")
        bases = {"unsettled moment", "time stands still"}
        assert whose not in bases or "shown" not in {after[each.name] for each in program.requirements}


def look(seed: int, engines: Collection[Engine] = BOTH) -> Counter[str]:
    """One random program: nothing is refused; where all that proofs rest on is shown, both say the same."""
    program, check, document = certified(random_program(seed).text, engines)
    found = proved_again(document, program)
    assert found.held == found.claims, (seed, found)
    assert whole(found) or check.troubles or Kind.NOT_DECIDED in {v.kind for v in check.verdicts}, seed
    if whole(found):
        now, wanted = standings(found), expected(check)
        assert {name: now[name] for name in wanted} == wanted, seed
    return Counter(each.standing.value for each in found.requirements) + Counter(
        programs=1, whole=whole(found), claims=found.claims, covers=covers(document)
    )


def covers(document: Document) -> int:
    return sum(len(claim.proof.covers) for claim in document.claims if isinstance(claim.proof, Certificate))


@pytest.mark.slow
def test_random_programs() -> None:
    """The certificates of a hundred: all claims hold, and enough of each kind are seen."""
    found = sum((look(seed) for seed in range(SEEDS)), Counter[str]())
    print(sorted(found.items()))
    least = {"whole": 85, "shown": 90, "no case": 25, "fails": 2, "missing": 100, "claims": 350}
    assert {kind: found[kind] >= count for kind, count in least.items()} == dict.fromkeys(least, True), found


@pytest.mark.slow
def test_random_programs_by_zones() -> None:
    """Proofs of the other engine, which are covers."""
    found = sum((look(seed, frozenset({Engine.ZONES})) for seed in range(SEEDS // 4)), Counter[str]())
    print(sorted(found.items()))
    assert found["covers"] > 20, found


@pytest.mark.campaign
def test_random_programs_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    found = sum((look(each) for each in seeds(30)), Counter[str]())
    print(sorted(found.items()))
