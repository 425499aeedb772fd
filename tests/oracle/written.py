"""How small programs with answers worked out by hand are written down.

A truth that has a given course over time is made of timers of a box that is always powered: `wave` writes it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

Expected: TypeAlias = tuple[str, int | None]

PROVED: Expected = ("proved", None)
NO_CASE: Expected = ("no case", None)
BLOCKED: Expected = ("blocked", None)
NEVER_POSSIBLE: Expected = ("fails", None)


def fails(moments: int) -> Expected:
    """It fails, and the shortest story has so many moments."""
    return ("fails", moments)


def witness(moments: int) -> Expected:
    """It is possible, and the shortest witness has so many moments."""
    return ("proved", moments)


@dataclass(frozen=True)
class Case:
    """A program and what is so of its requirements, in their order."""

    name: str
    text: str
    expected: tuple[Expected, ...]


def wave(name: str, *stretches: tuple[float, float | None]) -> str:
    """A rule that is true from, up to and not including, each stretch (seconds; None: for ever)."""
    parts = []
    for begin, end in stretches:
        start = f"on_delay(true, {begin:g} s)" if begin else ""
        stop = f"not on_delay(true, {end:g} s)" if end else ""
        parts.append("(" + (" and ".join(x for x in (start, stop) if x) or "true") + ")")
    return f"rule {name} = {' or '.join(parts) or 'false'}"


def program(
    *requirements: str,
    world: tuple[str, ...] = (),
    harness: tuple[str, ...] = (),
    box: tuple[str, ...] = (),
    feed: str = "always_on",
    given: tuple[str, ...] = (),
) -> str:
    """A whole program; without `feed` the box is powered by a wire that is always live."""
    copper = (*(("source plus",) if box or harness else ()), *harness)
    if box and feed == "always_on":
        copper = (*copper, "wire always_on from plus")
    asked = tuple(f"danger q{index} {text}" for index, text in enumerate(requirements))
    blocks = {
        "world": world,
        "harness": copper,
        f"controller powered by {feed}": box,
        "given": given,
        "requirements": asked,
    }
    parts = ['vehicle "case"']
    parts += ["\n".join([head, *("    " + line for line in lines)]) for head, lines in blocks.items() if lines]
    return "\n\n".join(parts) + "\n"


def waves(requirement: str, **stretches: tuple[tuple[float, float | None], ...]) -> str:
    """A program with these courses over time, and one requirement."""
    return program(requirement, box=tuple(wave(name, *each) for name, each in stretches.items()))


FREE_X = {
    "world": ("x contact",),
    "harness": ("wire x_wire from plus when x",),
    "box": ("sense s from x_wire live",),
}


def over_x(*requirements: str, rule: str, first: str = "", given: tuple[str, ...] = ()) -> str:
    """A program with one free contact x, sensed as s, and a rule over it."""
    world = (*FREE_X["world"], *((f"at first {first}",) if first else ()))
    return program(*requirements, world=world, harness=FREE_X["harness"], box=(*FREE_X["box"], rule), given=given)
