"""What is printed of the user's text: nothing in it moves the cursor, and paths can be typed again."""

from __future__ import annotations

import pytest

from logiccheck.report.plain import printable, typed


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Gr\u00f6\u00dfe \u8f66", "Gr\u00f6\u00dfe \u8f66"),
        ("a\x1b[2Jb\r\n", "a?[2Jb??"),
        ("a\u202eb\u2028c\x85", "a?b?c?"),
    ],
)
def test_printable(text: str, shown: str) -> None:
    """As long as before, column by column."""
    assert printable(text) == shown
    assert len(shown) == len(text)


@pytest.mark.parametrize(
    ("path", "argument"),
    [
        ("a/van.circuit", "a/van.circuit"),
        ("C:/a/van.circuit", "C:/a/van.circuit"),
        ("my van.circuit", '"my van.circuit"'),
        ("-van.circuit", "./-van.circuit"),
        ("$HOME van.circuit", "'$HOME van.circuit'"),
        ("it's.circuit", "'it'\"'\"'s.circuit'"),
    ],
)
def test_typed(path: str, argument: str) -> None:
    """Quotes only where a shell needs them, and those that most shells know."""
    assert typed(path) == argument
