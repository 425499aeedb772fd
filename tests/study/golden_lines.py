"""What lint says of the faulty example of each finding about what never changes, what is alike and what has no end;
`python -m tests.study.golden_lines` writes it anew."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logiccheck.explain.finding import FindingMessage
from logiccheck.study.findings import MESSAGES
from tests.study.golden_time import said

GOLDEN = Path(__file__).with_name("golden_lines.txt")
MINE: tuple[type[FindingMessage], ...] = tuple(each for each in MESSAGES if "W120" <= each.code <= "W139")


def golden() -> str:
    """All of them, one after the other."""
    return "\n\n".join(f"== {kind.code} {kind.name}\n\n{said(kind)}" for kind in MINE) + "\n"


def written() -> Iterator[str]:
    """What the file says, a piece for each finding."""
    yield from GOLDEN.read_text(encoding="utf-8").split("== ")[1:]


if __name__ == "__main__":
    GOLDEN.write_text(golden(), encoding="utf-8")
