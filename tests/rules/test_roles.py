"""A role of a checklist that is left out is asked for in its own words; one of which nothing is asked is not missed."""

from __future__ import annotations

import re

import pytest

from logiccheck.base import assets
from logiccheck.lang import written as w
from logiccheck.lang.load import load_text
from logiccheck.lang.parse import parse
from tests.examples.reading import ROOT
from tests.rules.fields import fields_of

CHECKLISTS = sorted(assets.checklist_names())


def roles(checklist: str) -> dict[str, str]:
    """The label of each role."""
    text = (ROOT / "rules" / f"{checklist}.circuit").read_text(encoding="utf-8")
    file, _ = parse(text, checklist)
    return {
        item.name.text: item.label.text for block in file.blocks for item in block.items if isinstance(item, w.Role)
    }


def bound(checklist: str) -> tuple[str, dict[str, str], str]:
    """The example of a checklist: what stands before its bindings, the bindings, and what stands behind them."""
    text = (ROOT / "examples" / "checklists" / f"{checklist}.circuit").read_text(encoding="utf-8")
    head, rest = text.split(" with\n", 1)
    bindings, tail = rest.split("\n\n", 1)
    return f"{head} with\n", dict(re.findall(r"^    (\w+) += (.+?),?$", bindings, flags=re.MULTILINE)), f"\n\n{tail}"


def without(checklist: str, role: str, more: tuple[str, ...] = ()) -> list[str]:
    """What is told of the example when it leaves a role out, and says `more` behind its bindings."""
    head, bindings, tail = bound(checklist)
    lines = [f"    {name} = {value}" for name, value in bindings.items() if name != role]
    loaded = load_text(head + ",\n".join([*lines, *more]) + tail)
    return [found.message.sentence() for found in loaded.diagnostics]


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_every_role_is_bound_in_the_example(checklist: str) -> None:
    """None is left out, and the labels say what each is in more than a word."""
    assert list(bound(checklist)[1]) == list(roles(checklist))
    assert all(len(label.split()) >= 3 for label in roles(checklist).values())


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_a_role_left_out_is_asked_for(checklist: str) -> None:
    """The mistake says what the role is, in the words of the checklist."""
    for role, label in roles(checklist).items():
        expected = f"Nothing plays the role `{role}` ({label}) of the checklist `{checklist}`."
        assert without(checklist, role) == [expected]


@pytest.mark.parametrize("checklist", CHECKLISTS)
def test_with_all_requirements_waived_no_role_is_missed(checklist: str) -> None:
    """So each requirement can be waived, and no role serves anything but requirements."""
    waived = tuple(f'    waive {name} "It does not apply."' for name in fields_of(checklist))
    for role in roles(checklist):
        assert without(checklist, role, waived) == []
