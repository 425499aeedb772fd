"""The programs of this folder: which there are, what stands beside their requirements, and what the check answers."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from logiccheck.engine.check import check_program
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program

HERE = Path(__file__).parent
BUDGET = 120.0  # seconds for one requirement, which leaves time on a busy machine; most need less than one
MARKED = re.compile(r"^ +(?:danger|damage|function) +(\w+) [^#]*# (proved|fails|no case)$", re.MULTILINE)


def programs() -> list[str]:
    """The names of the files, without their ending."""
    return sorted(path.stem for path in HERE.glob("*.circuit"))


def written(name: str) -> str:
    """The text of one."""
    return (HERE / f"{name}.circuit").read_text(encoding="utf-8")


def read(text: str) -> Program:
    """The program of a text that has no mistakes."""
    loaded = load_text(text)
    assert loaded.program is not None, [found.message.sentence() for found in loaded.diagnostics]
    return loaded.program


def scenarios() -> list[tuple[str, str]]:
    """The scenarios of all files: file and name."""
    return [
        (name, each) for name in programs() for each in re.findall(r"^scenario +(\w+)", written(name), re.MULTILINE)
    ]


def marked(text: str) -> dict[str, str]:
    """What stands behind each requirement, by its name: the published answer."""
    return dict(MARKED.findall(text))


def answered(program: Program, only: Collection[str] | None = None, seconds: float = BUDGET) -> dict[str, str]:
    """What the check says of each requirement that is written (or of those named in `only`), by its name."""
    check = check_program(program, seconds_each=seconds, only=only)
    assert check.troubles == ()
    return {each.requirement.name: each.kind.value for each in check.verdicts if not each.builtin}
