"""Reads `messages.txt`: malformed files, what is told about each, and what to type so that it is told no more.

A case begins with `=== title` and the file. `--- told` is followed by everything that is told about the file,
`--- type` by lines `old => new`: with each old text replaced, once, nothing is told. `\\n` stands for a line end.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

PATH = Path(__file__).with_name("messages.txt")


@dataclass(frozen=True, slots=True)
class Case:
    title: str
    text: str
    told: str
    edits: tuple[tuple[str, str], ...]

    @property
    def mended(self) -> str:
        """The text after the edits; each finds its place."""
        text = self.text
        for old, new in self.edits:
            assert old in text, f"{self.title}: {old!r} is not in the text"
            text = text.replace(old, new, 1)
        return text


def cases() -> list[Case]:
    """All cases of the file."""
    found = []
    for part in PATH.read_text(encoding="utf-8").split("=== ")[1:]:
        title, _, rest = part.partition("\n")
        body, _, typed = rest.partition("--- type\n")
        text, _, told = body.partition("--- told\n")
        edits = tuple(_edit(line) for line in typed.splitlines())
        found.append(Case(title, text, told.rstrip("\n"), edits))
    return found


def _edit(line: str) -> tuple[str, str]:
    old, _, new = line.removeprefix("    ").partition(" => ")
    return old.replace("\\n", "\n"), new.replace("\\n", "\n")
