"""Finds outputs and relays that flip faster than ten times a second although no hand moves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class Flicker(FindingMessage):
    """A relay chatters, a lamp flickers, a pump stutters, and nobody touches anything.

    What it means
    There is a situation in which it changes three times by itself, each time less than 100 ms after the time before.
    Timers do it: no switch moves and nothing that is measured changes. Contacts burn, motors get hot, lamps dazzle.

    Write
    output lamp "Warning lamp" when blink(door_open, on 300 ms, off 300 ms)

    Instead of
    output lamp "Warning lamp" when blink(door_open, on 30 ms, off 30 ms)

    When to accept it
    Where what hangs on it is made for that, such as a buzzer that needs pulses.
    """

    what: str
    word: str

    code, name, title = "W128", "flicker", "It flips faster than ten times a second"
    guards = Guard.DANGER

    def sentence(self) -> str:
        return f"The {self.what} `{self.word}` can flip three times within 200 ms, and no hand moves."

    def hint(self) -> str:
        return "Make the times longer, or let it stay on until something has been so for a while."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each, with the shortest story; of what only follows another's flicker none."""
    from logiccheck.explain.surveyed.flips import flickering

    for item, what, story in flickering(program, survey):
        yield Finding(Diagnostic(Flicker(what, item.name), item.span), (item.name,), story)
