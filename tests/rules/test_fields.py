"""Every requirement of a checklist says why it is there, of what kind it is, and where it comes from."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from logiccheck.base import assets
from logiccheck.lang import written as w
from logiccheck.lang.parse import parse
from tests.examples.reading import ROOT
from tests.examples.test_edits import CHECKLIST_EDITS
from tests.rules.fields import fields_of

CHECKLISTS = sorted(assets.checklist_names())
KINDS = ("law", "standard", "practice", "memory")
README = (ROOT / "rules" / "README.md").read_text(encoding="utf-8")
CLAUSE = re.compile(r"\bS?\d+(\.\d+)+\b|§ \d+|\bregulation \d+ \(|\bparagraph \d+\b")
READ = re.compile(r"Read in .*\b(1[89]|20)\d\d\b[^.]* \([a-z.]+\.[a-z]+[\w./-]*\)")


def _table(heading: str) -> dict[str, list[str]]:
    """The rows of the table of `rules/README.md` with that heading of its first column: name to the other cells."""
    body = README.split(f"| {heading} |", 1)[1].split("\n\n", 1)[0]
    rows = [line.strip("| ").split(" | ") for line in body.splitlines() if line.startswith("| ")]
    return {row[0].strip("`"): row[1:] for row in rows if not row[0].startswith("---")}


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_every_requirement_has_its_three_fields(checklist: str) -> None:
    """Reason, kind and source stand in this order right above each requirement; the kinds are four words."""
    found = fields_of(checklist)
    assert len(found) >= 6
    for name, fields in found.items():
        assert list(fields) == ["reason", "kind", "source"], name
        assert fields["kind"] in KINDS, name
        assert re.fullmatch(r"[A-Z].*[.?]", fields["reason"]), name


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_none_is_overlooked(checklist: str) -> None:
    """The requirements with fields are those that the tool reads, in the same order."""
    text = (ROOT / "rules" / f"{checklist}.circuit").read_text(encoding="utf-8")
    file, found = parse(text, checklist)
    assert found == ()
    items = [item for block in file.blocks for item in block.items]
    assert [item.name.text for item in items if isinstance(item, w.Requirement)] == list(fields_of(checklist))


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_a_source_is_as_its_kind_promises(checklist: str) -> None:
    """Law and standard name clause, edition and where it was read; the others say that there is no source."""
    for name, fields in fields_of(checklist).items():
        source = fields["source"]
        match fields["kind"]:
            case "law" | "standard":
                assert CLAUSE.search(source), name
                assert READ.search(source), name
            case "practice":
                assert source.startswith("common practice, no source"), name
            case _:
                assert source.startswith("from memory"), name


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_a_checklist_says_that_rules_differ(checklist: str) -> None:
    """Its first lines say so, or that nothing in it is out of a rule."""
    head = (ROOT / "rules" / f"{checklist}.circuit").read_text(encoding="utf-8").split("\n\n", 1)[0]
    words = " ".join(head.replace("#", " ").split())
    assert "README.md beside this file" in words
    assert re.search(r"rules differ by country|Nothing here is out of a rule", words)
    assert ("Nothing here" in words) == all(f["kind"] not in ("law", "standard") for f in fields_of(checklist).values())


def test_the_table_counts_each_kind() -> None:
    """`rules/README.md` lists every checklist with the number of its requirements of each kind, and adds them up."""
    counted = {name: Counter(fields["kind"] for fields in fields_of(name).values()) for name in CHECKLISTS}
    rows = {name.removesuffix(".circuit"): cells for name, cells in _table("checklist").items()}
    assert sorted(rows) == sorted([*CHECKLISTS, "all"])
    everything: Counter[str] = sum(counted.values(), Counter())
    for name, cells in rows.items():
        kinds = everything if name == "all" else counted[name]
        assert [int(cell) for cell in cells[1:]] == [*(kinds[kind] for kind in KINDS), kinds.total()], name


def test_the_language_reference_names_them_all() -> None:
    """Who reads about `use checklist` learns which there are."""
    reference = (ROOT / "grammar" / "LANGUAGE.md").read_text(encoding="utf-8")
    said = reference.split("`use checklist` takes\n", 1)[1].split("```", 1)[0]
    assert sorted(re.findall(r"`([a-z]+)`", said)) == CHECKLISTS


def test_every_requirement_of_the_starting_checklist_bites_on_the_van() -> None:
    """For each of them there is an edit of the coffee van that it notices (`test_edits.py` checks that it does)."""
    noticed = {edit[3].removeprefix("starting_") for edit in CHECKLIST_EDITS}
    assert noticed == set(fields_of("starting"))
