"""Which of the planted mistakes lint alone finds, when nobody has written a requirement: the block is taken out."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.study.findings import linted
from tests.study.linting import read

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
PLANTED = sorted((EXAMPLES / "planted-mistakes").glob("*.circuit"))

FOUND: dict[str, set[str]] = {
    "ajar-door": {"unused-name"},  # the relay that should have parted the door
    "endless-fan": {"unused-name"},  # the run-on time that was left out
    "fed-backwards": {"fed-from-behind", "keeps-itself-awake"},
    "inverted-sense": {"unfed-wire"},
    "lost-brackets": {"lost-brackets"},
    "lost-edge": {"fall-lost-at-waking"},
    "missing-diode": {"joined-for-good", "always-true", "acts-on-waking", "same-meaning"},
    "prime-on-leaving": {"always-true", "acts-on-waking"},
    "shed-for-good": {"set-meets-reset"},
    "short-hold": {"hold-too-short"},
    "wrong-unit": {"two-units"},
    "wrong-wire": {"same-meaning"},
}
"""Of each mistake the findings that the van as it is meant to be does not have."""

MISSED = {
    "after-you": "that it chases itself stands in the way of all questions, and is said by a check",
    "backward-threshold": "a fan that cools what is cold is as sound as the other",
    "sleeping-hazards": "many lamps are meant to go out with the box",
    "starter-in-gear": "constant power is as good as any other",
    "wrong-dominance": "the checklist speaks of the pump, and says that it fails",
}
"""The others look right to anybody who does not know what is wanted: that is what requirements are for."""


def asks_nothing(path: Path) -> str:
    """The file without its requirements; the checklist that it uses stays."""
    text, count = re.subn(
        r"^requirements\n(?:^(?: .*|#.*)?\n)*", "", path.read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    assert count == 1
    return text


def found(path: Path) -> set[tuple[str, frozenset[str]]]:
    """What is found: the names of findings, and what they are about."""
    program = read(asks_nothing(path))
    looked = linted(program, Survey(program, Budget(120.0)))
    assert not looked.bugs
    return {(finding.message.name, frozenset(finding.signals)) for finding in looked.findings}


@cache
def as_meant() -> set[tuple[str, frozenset[str]]]:
    """The van as it is meant to be."""
    return found(EXAMPLES / "coffee-van" / "van.circuit")


@pytest.mark.parametrize("path", PLANTED, ids=lambda path: path.stem)
def test_what_lint_alone_finds(path: Path) -> None:
    """No more than the list says, and no less."""
    assert {name for name, _ in found(path) - as_meant()} == FOUND.get(path.stem, set())


def test_how_many_it_finds() -> None:
    """Each is in one of the two lists."""
    assert sorted([*FOUND, *MISSED]) == [path.stem for path in PLANTED]
    assert (len(FOUND), len(PLANTED)) == (12, 17)


def test_of_the_van_as_it_is_meant_to_be_it_says_little() -> None:
    """Only that nobody asks about most outputs."""
    assert {name for name, _ in as_meant()} == {"unasked-output"}
