"""Every message held whole, and what it says to type, typed."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text
from logiccheck.lang.mistakes.catalogue import MISTAKES
from tests.cli.test_accepted import TOLD as TOLD_OF_ACCEPTED
from tests.lang.messages import Case, cases
from tests.lang.showing import show_all
from tests.lang.test_checklists import TOLD as TOLD_OF_CHECKLISTS
from tests.lang.test_files import TOLD as TOLD_OF_FILES
from tests.lang.test_limits import TOLD as TOLD_OF_LIMITS
from tests.lang.vehicle import around

CASES = [pytest.param(case, id=case.title) for case in cases()]


@pytest.mark.parametrize("case", CASES)
def test_the_message_is_this(case: Case) -> None:
    """Place, lines, carets, sentence, advice and second place are exactly as written down."""
    assert show_all(load_text(around(case.text))) == case.told


@pytest.mark.parametrize("case", CASES)
def test_what_it_says_helps(case: Case) -> None:
    """With what the message says to type, nothing is told any more."""
    assert case.edits
    loaded = load_text(around(case.mended))
    assert loaded.diagnostics == (), show_all(loaded)
    assert loaded.program is not None


@pytest.mark.parametrize("case", CASES)
def test_a_second_place_says_what_it_is(case: Case) -> None:
    """Where two places are shown, both are spoken of."""
    for diagnostic in load_text(around(case.text)).diagnostics:
        assert (diagnostic.other is None) or diagnostic.message.second()
        assert diagnostic.sentence
        assert diagnostic.hint
        assert all(getattr(diagnostic.message, field) == value for field, value in diagnostic.data.items())


def test_every_mistake_is_told_by_some_file() -> None:
    """No message is there that no file provokes."""
    told = TOLD_OF_FILES | TOLD_OF_LIMITS | TOLD_OF_CHECKLISTS | TOLD_OF_ACCEPTED
    for case in cases():
        told |= {line.split()[2] for line in case.told.splitlines() if line.startswith("test.circuit:")}
    assert {kind.name for kind in MISTAKES} == told
