"""The same program written otherwise: its lines in another order, its things by other names."""

from __future__ import annotations

import re
from collections.abc import Mapping
from random import Random

from logiccheck.lang.program import Program

FIRST = "    at first "


def reordered(text: str, random: Random) -> str:
    """The lines of each block in another order, and the facts behind `at first`."""
    blocks = []
    for block in text.strip().split("\n\n"):
        head, *lines = block.split("\n")
        random.shuffle(lines)
        blocks.append("\n".join([head, *(_facts(line, random) for line in lines)]))
    return "\n\n".join(blocks) + "\n"


def _facts(line: str, random: Random) -> str:
    if not line.startswith(FIRST):
        return line
    facts = line.removeprefix(FIRST).split(", ")
    random.shuffle(facts)
    return FIRST + ", ".join(facts)


def names(program: Program) -> list[str]:
    """All that has a name, but requirements."""
    named = [*program.switches, *program.numbers, *program.sources, *program.wires, *program.relays, *program.loads]
    found = [each.name for each in named]
    found += [ground.name for ground in program.grounds if ground.name != "ground"]
    if program.box is not None:
        found += [each.name for each in (*program.box.senses, *program.box.rules)]
    return sorted(found)


def renamed(text: str, others: Mapping[str, str]) -> str:
    """The text with these names for those, wherever they stand as words."""
    return re.sub(r"\b\w+\b", lambda word: others.get(word[0], word[0]), text)
