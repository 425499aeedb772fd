"""What lint says of the faulty example of each finding about time and memory; `python -m tests.study.golden_time`
writes it anew."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from logiccheck.base.diagnostic import long_text
from logiccheck.explain.finding import FindingMessage
from logiccheck.render.terminal import Look, render
from logiccheck.session.checking import lint
from logiccheck.study.findings import MESSAGES
from tests.study.linting import completed

GOLDEN = Path(__file__).with_name("golden_time.txt")
MINE: tuple[type[FindingMessage], ...] = tuple(each for each in MESSAGES if "W140" <= each.code <= "W159")


def said(kind: type[FindingMessage]) -> str:
    """The findings as lint prints them, without what it prints whatever it found."""
    text = completed(dict(long_text(kind).parts)["Instead of"]).encode()
    answer = lint("small.circuit", lambda _: text, 60.0, (), None, lambda: None)
    printed = render(answer.report, Look(width=None, colour=False, ascii=False))
    mine = printed.split("\n", 1)[1].split("What was taken as given")[0].split("What a proof does not")[0].strip("\n")
    return re.sub(r" logic [0-9a-f-]+$", " logic ...", mine, flags=re.MULTILINE)


def golden() -> str:
    """All of them, one after the other."""
    return "\n\n".join(f"== {kind.code} {kind.name}\n\n{said(kind)}" for kind in MINE) + "\n"


def written() -> Iterator[str]:
    """What the file says, a piece for each finding."""
    yield from GOLDEN.read_text(encoding="utf-8").split("== ")[1:]


if __name__ == "__main__":
    GOLDEN.write_text(golden(), encoding="utf-8")
