"""No case of the meaning is left out: each is put to the engine in a row or a test that carries its number."""

from __future__ import annotations

import re
from types import ModuleType

from tests.engine import test_meaning_direct, test_meaning_follow, test_meaning_forms, test_meaning_given
from tests.model import test_assumptions, test_memory_and_edges, test_power, test_requirements
from tests.oracle.cases import CASES

COUNTS = {"A": 15, "B": 9, "C": 13, "D": 11, "E": 5, "F": 16, "G": 8, "H": 1}

PARTS = {
    "C7": {"C7a", "C7b"},
    "F1": {"F1", "F1-longer"},
    "F8": {"F8", "F8-short"},
    "F10": {"F10", "F10-short"},
    "F11": {"F11", "F11-same"},
}  # cases that are two: with both answers

BY_THE_REPORT = {
    "C11": "that the report names the waking",
    "E2": "that the message offers `previous(a)`",
    "B9": "that the message shows the circle",
}  # the part of a case that is words, and no verdict


def numbers() -> set[str]:
    """The numbers in the rows that the engine decides, and in the names of tests."""
    found = {name for case in CASES for name in re.findall(r"\b[A-H]\d+\b", case.name)}
    follow, direct = test_meaning_follow, test_meaning_direct
    rows = [*follow.TIMERS, *follow.SPEEDS, *follow.KEYED, *follow.SNEAKS, *follow.KEPT, *direct.MISTAKES]
    rows += [*test_memory_and_edges.RULES, *test_power.HOLD, *test_requirements.CASES, *test_assumptions.CASES]
    found |= {row[0] for row in rows}
    modules: list[ModuleType] = [direct, follow, test_meaning_forms, test_meaning_given]
    for module in modules:
        found |= {name for test in vars(module) for name in re.findall(r"^test_([A-H]\d+)_", test)}
    return found


def test_every_case_is_there() -> None:
    """A to G and H1, by number; what is two has both parts."""
    wanted = {f"{letter}{number}" for letter, count in COUNTS.items() for number in range(1, count + 1)}
    wanted = {part for case in wanted for part in PARTS.get(case, {case})}
    assert wanted - numbers() == set()


def test_what_is_left_to_the_report_has_a_verdict_too() -> None:
    """A case with words in it is here for the rest of it."""
    assert set(BY_THE_REPORT) <= numbers()
