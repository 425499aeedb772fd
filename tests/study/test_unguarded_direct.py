"""What becomes of a small edit is what a check of the edited file says, asked directly."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain.edit import edited
from logiccheck.explain.guarding.deciding import NoEffect, Open, Unnoticed
from logiccheck.explain.guarding.guarding import guard
from logiccheck.explain.guarding.noticing import Noticed
from logiccheck.lang.load import load_text
from tests.calling import EXAMPLES

FILE = "test.circuit"


def holds(text: str) -> bool:
    """Whether all that the file requires is proved, and nothing stands in the way."""
    program = load_text(text, FILE).program
    assert program is not None
    check = check_program(program, seconds_each=60)
    assert all(verdict.kind is not Kind.NOT_DECIDED for verdict in check.verdicts)
    return check.troubles == () and all(verdict.kind is Kind.PROVED for verdict in check.verdicts)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["cooling", "fuel", "starting"])
def test_noticed_is_what_no_longer_holds(name: str) -> None:
    """Every edit that is noticed breaks a requirement; every other one breaks none."""
    text = (EXAMPLES / "checklists" / f"{name}.circuit").read_text(encoding="utf-8")
    program = load_text(text, FILE).program
    assert program is not None
    tried = guard(program, FILE, {FILE: text}, check_program(program), (), 60.0, lambda _: None).tried
    assert {type(each.decision) for each in tried} <= {Noticed, Unnoticed, NoEffect, Open}
    for each in tried:
        if not isinstance(each.decision, Open):
            files = edited(each.small.edit, {FILE: text}).files
            assert holds(files[FILE]) == (not isinstance(each.decision, Noticed)), each.small
