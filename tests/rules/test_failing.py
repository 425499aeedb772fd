"""Every requirement of every checklist holds in the example that binds it, and fails, it alone, after a small edit."""

from __future__ import annotations

import re
import tomllib
from difflib import SequenceMatcher
from functools import cache

import pytest

from logiccheck.base import assets
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from tests.examples.reading import ROOT, read
from tests.rules.fields import fields_of

FOLDER = ROOT / "examples" / "checklists"
FAILING: dict[str, dict[str, list[list[str]]]] = tomllib.loads(
    (ROOT / "tests" / "rules" / "failing.toml").read_text(encoding="utf-8")
)
EXPECTED = tomllib.loads((FOLDER / "expected.toml").read_text(encoding="utf-8"))
PROVED: dict[str, int] = EXPECTED["proved"]
README = (FOLDER / "README.md").read_text(encoding="utf-8")
CHECKLISTS = sorted(assets.checklist_names())
EDITS = [(checklist, name) for checklist, edits in FAILING.items() for name in edits]


@cache
def example(checklist: str) -> str:
    """The text of the example that binds a checklist."""
    return (FOLDER / f"{checklist}.circuit").read_text(encoding="utf-8")


def edited(checklist: str, name: str) -> str:
    """The example with the edit that makes the requirement fail."""
    text = example(checklist)
    for old, new in FAILING[checklist][name]:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def verdicts(text: str) -> dict[str, Kind]:
    """What comes of each requirement of a text without mistakes, in which nothing stands in the way."""
    check = check_program(read(text), seconds_each=60)
    assert check.troubles == ()
    return {verdict.requirement.name: verdict.kind for verdict in check.verdicts}


def test_there_are_ten_and_each_has_its_example() -> None:
    """Each checklist is bound in a file of its own name; one more file binds several."""
    assert len(CHECKLISTS) >= 10
    assert sorted(path.stem for path in FOLDER.glob("*.circuit")) == sorted([*CHECKLISTS, "camper"])
    assert sorted(PROVED) == sorted([*CHECKLISTS, "camper"])
    assert re.findall(r"^\| `(\w+)\.circuit` \| .+\. \|$", README, flags=re.MULTILINE) == list(PROVED)


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_all_requirements_hold_in_the_example(checklist: str) -> None:
    """The example asks for all requirements of its checklist and for nothing else, and all are proved."""
    expected = {f"{checklist}_{name}": Kind.PROVED for name in fields_of(checklist)}
    assert verdicts(example(checklist)) == expected
    assert len(expected) == PROVED[checklist]


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_there_is_an_edit_for_each_requirement(checklist: str) -> None:
    """No requirement of the checklist is without an edit, and no edit without a requirement."""
    assert set(FAILING[checklist]) == set(fields_of(checklist))


@pytest.mark.parametrize(("checklist", "name"), EDITS, ids=[f"{checklist}-{name}" for checklist, name in EDITS])
def test_it_fails_alone(checklist: str, name: str) -> None:
    """After the edit, of three lines at most, this requirement fails, and each other is proved or has no case."""
    text = edited(checklist, name)
    blocks = SequenceMatcher(None, example(checklist).splitlines(), text.splitlines(), autojunk=False).get_opcodes()
    assert 1 <= sum(max(b - a, d - c) for what, a, b, c, d in blocks if what != "equal") <= 3
    found = verdicts(text)
    assert {word for word, kind in found.items() if kind is Kind.FAILS} == {f"{checklist}_{name}"}
    assert set(found.values()) <= {Kind.FAILS, Kind.PROVED, Kind.NO_CASE}


@pytest.mark.parametrize(
    ("on", "off", "expected"),
    [
        ("0.5 s", "0.5 s", set()),
        ("0.2 s", "0.8 s", set()),
        ("0.5 s", "0.501 s", {"lighting_not_too_slow"}),
        ("0.25 s", "0.25 s", set()),
        ("0.1 s", "0.4 s", set()),
        ("0.25 s", "0.249 s", {"lighting_not_too_fast"}),
        ("1.1 s", "0.1 s", {"lighting_not_too_slow"}),
    ],
)
def test_flashes_are_counted_from_one_to_the_next(on: str, off: str, expected: set[str]) -> None:
    """60 and 120 in a minute are allowed, however long the lamp burns of that; a thousandth more or less is not."""
    old = "key_on, on 0.35 s, off 0.35 s)"
    assert example("lighting").count(old) == 1
    found = verdicts(example("lighting").replace(old, f"key_on, on {on}, off {off})"))
    assert {name for name, kind in found.items() if kind is Kind.FAILS} == expected
    assert set(found.values()) <= {Kind.FAILS, Kind.PROVED}


def test_the_camper_asks_or_waives_all_that_is_for_the_road() -> None:
    """Every requirement of the checklists it uses is asked or waived, and every checklist but one is used."""
    program = read(example("camper"))
    waived = [each.name for each in program.waived]
    asked = [requirement.name for requirement in program.requirements]
    road = [f"{checklist}_{name}" for checklist in CHECKLISTS if checklist != "boat" for name in fields_of(checklist)]
    assert sorted(asked + waived) == sorted(road)
    assert (len(asked), len(waived)) == (PROVED["camper"], EXPECTED["waived"]["camper"])


def test_the_checklists_hold_together_on_the_camper() -> None:
    """One vehicle can keep them all at once."""
    assert set(verdicts(example("camper")).values()) == {Kind.PROVED}
