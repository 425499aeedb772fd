"""Texts with the same words in other white space, and with comments in every place where one may stand."""

from __future__ import annotations

import re
from random import Random

from logiccheck.lang.layout import lay_out

_TOKEN = re.compile(r'"[^"\n]*"|-?\d+(?:\.\d+)?|°?[^\W\d]\w*|->|\.\.|\+-|\S')
_GLUED = "(){},=|"


def mangled(text: str, chance: Random) -> str:
    """The text with its blanks, line breaks and blank lines drawn anew, and comments put into it."""
    item = chance.choice((2, 3, 4, 7))
    lines: list[str] = []
    for block in lay_out(text, "van.circuit").blocks:
        lines += _between(chance, 0)
        lines += _lines(block.header.text, 0, chance, may_break=block.header.word == "use")
        for piece in block.items:
            lines += _between(chance, item)
            lines += _lines(piece.text, item, chance, may_break=True)
    lines += _between(chance, chance.choice((0, item)))
    return "\n".join(lines)


def _between(chance: Random, indent: int) -> list[str]:
    """Blank lines and comments before something that stands at this indentation."""
    found = [chance.choice(("", "  ", "\t")) for _ in range(chance.choice((0, 0, 0, 1, 2, 5)))]
    if chance.random() < 0.15:
        found.append(" " * chance.choice((0, indent, 2 * indent)) + _comment(chance))
    return found


def _comment(chance: Random) -> str:
    return (
        "#" + chance.choice(("", " ", "  ")) + chance.choice(("why", 'a "quote', "(open", "é  two", "#", "x = 1 when"))
    )


def _lines(text: str, indent: int, chance: Random, may_break: bool) -> list[str]:
    """What an item says, on one line or several."""
    lines = [" " * indent]
    before = ""
    for match in _TOKEN.finditer(text):
        token = match[0]
        if before and may_break and "/" not in (before, token) and token != "checklist" and chance.random() < 0.06:
            lines[-1] += _end(chance)
            lines += _between(chance, indent + 1)
            lines.append(" " * (indent + chance.choice((1, 3, 8))))
        elif before and not _may_stick(before, token):
            lines[-1] += chance.choice((" ", " ", " ", "  ", "     ", "\t", " " * chance.randrange(1, 30)))
        elif before and "/" not in (before, token) and chance.random() < 0.5:
            lines[-1] += " " * chance.randrange(3)
        lines[-1] += token
        before = token
    lines[-1] += _end(chance)
    return lines


def _may_stick(before: str, after: str) -> bool:
    """Whether no blank is needed between two tokens."""
    if before == "/" or after == "/":
        return True
    return before in _GLUED or after in _GLUED or before.startswith('"') or after.startswith('"')


def _end(chance: Random) -> str:
    blanks = " " * chance.choice((0, 0, 1, 3))
    return blanks + (" " * chance.randrange(20) + _comment(chance) if chance.random() < 0.15 else "")
