"""What MEANING.md says is stored is what is stored: every name has its row, and every row a name."""

from __future__ import annotations

import re
from pathlib import Path

from logiccheck.audit import check
from logiccheck.audit.relation import Apart
from logiccheck.engine.settle import settle
from logiccheck.model.circuit.reaction import Forms
from tests.audit.auditing import Watched, watched
from tests.audit.twoways import TwoWays
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

__all__ = ["watched"]

SEEDS = 60
WORDS = {"KEY": r"[^:]+", "RELAY": r"\w+", "OUTPUT": r"\w+", "THING": r"\w+", "NAME": r"\w+"}
NUMBERS = ("N", "K", "P")


def rows() -> dict[str, re.Pattern[str]]:
    """Each name of the tables, as a pattern."""
    text = (Path(check.__file__).parent / "MEANING.md").read_text(encoding="utf-8")
    cells = [line.split("|")[1] for line in text.splitlines() if line.startswith("| `")]
    found: dict[str, re.Pattern[str]] = {}
    for name in (name for cell in cells for name in re.findall(r"`([^`]+)`", cell)):
        parts = re.split(r"\b([A-Z]+)\b", name)
        found[name] = re.compile("".join(_pattern(part) for part in parts))
    return found


def _pattern(part: str) -> str:
    return WORDS.get(part, r"\d+" if part in NUMBERS else re.escape(part))


def stored(watched: Watched) -> set[str]:
    """Everything that is stored in random programs, also where time may stop."""
    found: set[str] = set()
    for seed in range(SEEDS):
        program = loaded(random_program(seed).text)
        depth = settle(program, Forms())
        found |= TwoWays(program, depth).stored if depth.always else set()
        watched.check(program)
        for seen in watched.seen:
            found |= {bit.name for bit in seen.cone.bits} if seen.cone is not None else set()
            found |= {seen.question.bit} if isinstance(seen.question, Apart) else set()  # of the audit alone
    return found


def test_every_bit_has_its_meaning(watched: Watched) -> None:
    """No bit without a row, no row without a bit."""
    names, patterns = stored(watched), rows()
    assert len(patterns) > 25
    assert [name for name in sorted(names) if not any(p.fullmatch(name) for p in patterns.values())] == []
    assert [row for row, p in patterns.items() if not any(p.fullmatch(name) for name in names)] == []
