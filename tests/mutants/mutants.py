"""Mutants: small mistakes planted in the package on purpose, as data, to see that some test would notice them.

Each file in `planted/` holds mutants of one part of the package, and the tests that look at that part most closely. A
mutant is one or more replacements of text; the old text must stand in its file exactly once.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


class Moved(ValueError):
    """The old text of an edit does not stand in its file exactly once: the mutant has to follow the code."""


@dataclass(frozen=True)
class Edit:
    """A replacement in one file (its path from the root of the repository)."""

    file: str
    old: str
    new: str

    def made_in(self, text: str) -> str:
        """The text with the edit made. Raises `Moved`."""
        if (count := text.count(self.old)) != 1:
            raise Moved(f"{self.file} holds the old text {count} times, not once:\n{self.old}")
        return text.replace(self.old, self.new)


@dataclass(frozen=True)
class Mutant:
    """`breaks` says in one line what is wrong with it; `first` names the tests to try first."""

    name: str
    breaks: str
    edits: tuple[Edit, ...]
    first: tuple[str, ...]

    def texts(self, root: Path = ROOT) -> dict[str, str]:
        """The files it changes, as they read with it. Raises `Moved`."""
        made: dict[str, str] = {}
        for edit in self.edits:
            before = made.get(edit.file) or (root / edit.file).read_text(encoding="utf-8")
            made[edit.file] = edit.made_in(before)
        return made


def _read(path: Path) -> list[Mutant]:
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    return [
        Mutant(
            each["name"],
            each["breaks"],
            tuple(Edit(e["file"], e["old"].strip("\n"), e["new"].strip("\n")) for e in each["edit"]),
            tuple(table["first"]),
        )
        for each in table["mutant"]
    ]


def _number(path: Path) -> int:
    return int(path.stem.partition("_")[0])


def all_mutants() -> list[Mutant]:
    """Every planted mutant, file by file."""
    return [mutant for path in sorted((HERE / "planted").glob("*.toml"), key=_number) for mutant in _read(path)]
