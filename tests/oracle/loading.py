"""Programs of the tests, from text."""

from __future__ import annotations

from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program


def loaded(text: str) -> Program:
    """The program of a text that has no mistakes."""
    found = load_text(text)
    assert found.program is not None, [str(each) for each in found.diagnostics] + [text]
    return found.program
