"""Every requirement of a checklist says why it is there, of what kind it is, and where it comes from."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.examples.reading import ROOT
from tests.examples.test_edits import CHECKLIST_EDITS

CHECKLISTS = [pytest.param(path, id=path.stem) for path in sorted((ROOT / "rules").glob("*.circuit"))]
REQUIREMENT = re.compile(r" +(?:danger|damage|function) (\w+)")
FIELD = re.compile(r" +# (reason|kind|source): +(\S.*)")
KINDS = {"law", "standard", "practice", "memory"}


def _fields(path: Path) -> dict[str, dict[str, str]]:
    """For each requirement of the file the fields of the comment right above it."""
    found: dict[str, dict[str, str]] = {}
    fields: dict[str, str] = {}
    last = ""
    for line in path.read_text(encoding="utf-8").splitlines():
        if match := FIELD.fullmatch(line):
            last = match[1]
            fields[last] = match[2]
        elif match := re.fullmatch(r" +# +(\S.*)", line):
            if last:
                fields[last] += " " + match[1]
        else:
            if match := REQUIREMENT.match(line):
                found[match[1]] = fields
            fields, last = {}, ""
    return found


@pytest.mark.parametrize("path", CHECKLISTS)
def test_every_requirement_has_its_three_fields(path: Path) -> None:
    """Reason, kind and source stand in this order right above each requirement; the kinds are four words."""
    found = _fields(path)
    assert len(found) >= 6
    for name, fields in found.items():
        assert list(fields) == ["reason", "kind", "source"], name
        assert fields["kind"] in KINDS, name


@pytest.mark.parametrize("path", CHECKLISTS)
def test_a_source_is_as_its_kind_promises(path: Path) -> None:
    """Law and standard name clause, edition and where it was read; the others say that there is no source."""
    for name, fields in _fields(path).items():
        source = fields["source"]
        match fields["kind"]:
            case "law" | "standard":
                assert re.search(r"\bS?\d+(\.\d+)+\b", source), name
                assert re.search(r"Read in the edition of .*\d{4} \(", source), name
            case "practice":
                assert source.startswith("common practice, no source"), name
            case _:
                assert source.startswith("from memory"), name


@pytest.mark.parametrize("path", CHECKLISTS)
def test_the_list_of_checklists_is_complete(path: Path) -> None:
    """`rules/README.md` names every checklist."""
    assert f"`{path.name}`" in (ROOT / "rules" / "README.md").read_text(encoding="utf-8")


def test_every_requirement_of_the_starting_checklist_bites() -> None:
    """For each of them there is an edit of the van that it notices (`test_edits.py` checks that it does)."""
    noticed = {edit[3].removeprefix("starting_") for edit in CHECKLIST_EDITS}
    assert noticed == set(_fields(ROOT / "rules" / "starting.circuit"))
