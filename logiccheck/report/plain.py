"""Text of the user that is safe to print: no character that moves the cursor, and commands that can be typed again."""

from __future__ import annotations

import re
import shlex

_MOVING = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
_BARE = re.compile(r"[\w@%+=:,./-]+")


def printable(text: str) -> str:
    """The text with "?" for every control character, line end and change of direction in it."""
    return _MOVING.sub("?", text)


def typed(path: str) -> str:
    """The path as an argument on a command line: in quotes where it needs them, and never taken for an option."""
    path = f"./{path}" if path.startswith("-") else path
    if _BARE.fullmatch(path):
        return path
    return f'"{path}"' if re.fullmatch(r"[\w@%+=:,./ -]+", path) else shlex.quote(path)
