"""What the tests of findings share: a small vehicle that a fragment is completed to, and all that is found in a text."""

from __future__ import annotations

import re

from logiccheck.base.budget import Budget
from logiccheck.explain.finding import Finding
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program
from logiccheck.study.findings import Linted, linted

WORLD, HARNESS, BOX = "world", "harness", 'controller "Box" powered by feed'
LINES: dict[str, tuple[str, str]] = {
    "key": (WORLD, 'key "Ignition key" off | run | start one by one'),
    "door": (WORLD, 'door "Door" closed | open'),
    "engine": (WORLD, 'engine "Engine speed" 0 .. 7000 rpm'),
    "coolant": (WORLD, 'coolant "Coolant temperature" -40 .. 130 degC'),
    "plus": (HARNESS, "source plus"),
    "feed": (HARNESS, "wire feed from plus"),
    "key_wire": (HARNESS, "wire key_wire from plus when key in {run, start}"),
    "start_wire": (HARNESS, "wire start_wire from plus when key is start"),
    "door_wire": (HARNESS, "wire door_wire from plus when door is open"),
    "key_on": (BOX, "sense key_on from key_wire live"),
    "cranking": (BOX, "sense cranking from start_wire live"),
    "door_open": (BOX, "sense door_open from door_wire live"),
    "revs": (BOX, "sense revs from engine"),
    "temperature": (BOX, "sense temperature from coolant"),
    "lamp": (BOX, "output lamp when key_on"),
}
"""Each line is part of the vehicle only where something names it that the fragment does not declare itself."""

_DECLARES = r"^ +(?:(?:source|wire|sense|output|rule|relay|load|ground) +)?{}\b(?! (?:is|above|below|in)\b)"
_BLOCK = r"^(?:world|harness|controller|electrics|requirements|given|constants|scenario)\b"


def completed(fragment: str) -> str:
    """The fragment as a whole vehicle: items without a block stand in that of the first line of the same kind."""
    text = fragment.rstrip("\n") + "\n"
    if re.search(r"^vehicle\b", text, re.MULTILINE):
        return text
    blocks = _blocks(text)
    boxed = any(header.startswith("controller") for header in blocks)
    while missing := [name for name in LINES if _is_missing(name, blocks, boxed)]:
        for name in missing:
            header, line = LINES[name]
            known = next((each for each in blocks if each.split()[0] == header.split()[0]), header)
            blocks.setdefault(known, []).append("    " + line)
            boxed = boxed or header == BOX
    order = ("constants", "world", "harness", "controller", "electrics", "given", "requirements", "scenario")
    parts = sorted(blocks, key=lambda header: order.index(header.split()[0]))
    return 'vehicle "Small"\n' + "".join("\n".join([header, *blocks[header]]) + "\n" for header in parts)


def _blocks(text: str) -> dict[str, list[str]]:
    """The items of each block by its header; those before any header are put where their first word belongs."""
    blocks: dict[str, list[str]] = {}
    items: list[str] = []
    loose = False
    for line in text.splitlines():
        first = line.split()[0] if line.strip() else ""
        if re.match(_BLOCK, line):
            items, loose = blocks.setdefault(line, []), False
        elif line and not line.startswith(" "):
            header = BOX if first in ("sense", "rule", "output") else HARNESS if first in _COPPER else WORLD
            items, loose = blocks.setdefault(header, []), True
            items.append("    " + line)
        elif loose:
            items[-1] += "\n    " + line
        elif first:
            items.append(line)
    return blocks


_COPPER = ("source", "wire", "relay", "load", "ground", "diode", "join")


def _is_missing(name: str, blocks: dict[str, list[str]], boxed: bool) -> bool:
    text = "\n".join(line for header, lines in blocks.items() for line in (header, *lines))
    if re.search(_DECLARES.format(name), text, re.MULTILINE):
        return False
    return bool(re.search(rf"(?<![\w\"]){name}\b", text)) or (name == "lamp" and "output " not in text and boxed)


def read(text: str) -> Program:
    """The program of a text that has no mistakes."""
    loaded = load_text(text)
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    return loaded.program


def all_found(text: str, seconds: float = 60.0) -> Linted:
    """Everything that is found in the text, all of it decided."""
    program = read(text)
    found = linted(program, Survey(program, Budget(seconds)))
    assert found.whole, found
    return found


def findings(text: str, name: str) -> list[Finding]:
    """The findings of this name in the text, completed to a vehicle."""
    program = read(completed(text))
    found = linted(program, Survey(program, Budget(60.0)), {name})
    assert found.whole, found
    return list(found.findings)


def sentences(text: str, name: str) -> list[str]:
    """What the findings of this name say."""
    return [finding.diagnostic.sentence for finding in findings(text, name)]
