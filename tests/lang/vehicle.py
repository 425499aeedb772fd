"""A small vehicle that fragments of a file are added to, so that a test shows only what it is about."""

from __future__ import annotations

import re

BLOCKS: dict[str, tuple[str, ...]] = {
    "world": (
        'key "Ignition key" off | run | start one by one',
        "door closed | open",
        "brake contact",
        "engine 0 .. 7000 rpm",
    ),
    "harness": (
        "source plus",
        "wire feed from plus",
        "wire key_wire from plus when key in {run, start}",
        "wire door_wire to ground when door is open",
        "wire wake",
        "wire wake_wire",
    ),
    'controller "Box" powered by feed': (
        "sense key_on from key_wire live",
        "sense revs from engine",
        "output lamp when key_on",
    ),
}
_NAME = re.compile(r"(?:source|wire|sense|output)? ?(\w+)")


def around(fragment: str) -> str:
    """The fragment, and behind it whatever of the small vehicle it does not declare itself."""
    parts = [fragment.rstrip("\n"), "\n"]
    if not re.search(r"^vehicle", fragment, re.MULTILINE):
        parts.append('vehicle "Small"\n')
    for header, lines in BLOCKS.items():
        own = header.startswith("controller") and re.search(r"^controller", fragment, re.MULTILINE)
        missing = [line for line in lines if not _declared(line, fragment)]
        block = "".join(f"    {line}\n" for line in missing)
        if own:
            parts.insert(1, "\n" + block)
        else:
            parts.append(f"{header}\n{block}")
    return "".join(parts)


def _declared(line: str, fragment: str) -> bool:
    """Whether the fragment has an item of its own for the name that this line of the small vehicle declares."""
    match = _NAME.match(line)
    assert match is not None
    start = line[: match.end()].rstrip()
    told = r"(?! (?:is|above|below|lasts|changes|without|after)\b)"  # an assumption begins with a name too
    return re.search(rf"^\s+{re.escape(start)}\b{told}", fragment, re.MULTILINE) is not None
