"""Each sentence about who may name what: the line is taken, or it is one mistake and of the right kind."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text
from tests.meaning.naming import ALL
from tests.meaning.sentences import HEAD, Named, rows


@pytest.mark.parametrize("case", rows(ALL, "language"))
def test_a_line(case: Named) -> None:
    """A line whose shape is wrong ("syntax") may be told in more than one way."""
    loaded = load_text(HEAD + case.text)
    found = {type(each.message).__name__ for each in loaded.diagnostics}
    assert (loaded.program is None) == bool(case.mistake), found
    if case.mistake != "syntax":
        assert found == ({case.mistake} if case.mistake else set())
