"""What the tests of examples share: which there are, and reading one as a program."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True, slots=True)
class Example:
    """An example folder: the main file of the vehicle, and what `expected.toml` says of it."""

    name: str
    file: Path
    expected: dict[str, Any]


@cache
def examples() -> tuple[Example, ...]:
    """The folders of `examples/` whose `expected.toml` names one main file, in alphabetical order."""
    found = []
    for folder in sorted(path for path in (ROOT / "examples").iterdir() if path.is_dir()):
        expected = tomllib.loads((folder / "expected.toml").read_text(encoding="utf-8"))
        if "file" in expected:
            found.append(Example(folder.name, folder / expected["file"], expected))
    return tuple(found)


def read(text: str) -> Program:
    """The program of a text that has no mistakes."""
    loaded = load_text(text)
    assert [found.message.sentence() for found in loaded.diagnostics] == []
    assert loaded.program is not None
    return loaded.program
