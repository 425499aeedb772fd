"""How many columns of a terminal a text takes: letters of the Far East take two, combining marks none."""

from __future__ import annotations

import unicodedata


def columns_of(text: str) -> int:
    """The columns that the text takes."""
    return len(text) if text.isascii() else sum(map(_width, text))


def padded(text: str, columns: int) -> str:
    """The text, and blanks up to so many columns."""
    return text + " " * (columns - columns_of(text))


def _width(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1
