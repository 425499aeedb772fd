"""Finds what stays on in the parked vehicle without end, although the hands alone would have it off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program
from logiccheck.study.following import quoted

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class EndlessRunOn(FindingMessage):
    """The vehicle was parked and left as always, and in the morning something is still on.

    What it means
    All hands and everything that is measured are back as they were at first, nothing moves, and it stays on for longer
    than all timers one after the other: no timer ends it. In a vehicle that has stood so from the start it is off. What
    keeps it on is a stored state, a relay that holds itself, or a wire that feeds back.

    Write
    relay night_relay coil off_delay(door_wire, 5 min +- 10 %)
    load lamp_strip on strip_wire 1 A
    wire strip_wire from plus when night_relay

    Instead of
    relay night_relay coil (door_wire or night_relay) and not key_wire
    load lamp_strip on strip_wire 1 A
    wire strip_wire from plus when night_relay

    When to accept it
    Where it is meant to stay on until a hand turns it off, and the battery stands it.
    """

    words: tuple[str, ...]
    minutes: int

    code, name, title = "W129", "endless-run-on", "On in the parked vehicle without end"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        what = f"In the parked vehicle this stays on by itself: {quoted(self.words)}."
        return f"{what} It is on for {self.minutes} min, longer than all timers one after the other."

    def hint(self) -> str:
        return "Let a timer end it, or let it hang on something that goes off when the vehicle is left."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for all that stays on together, with the shortest story."""
    from logiccheck.explain.surveyed.parked import MINUTE, endless

    for each in endless(program, survey):
        words = tuple(item.name for item in each.items)
        message = EndlessRunOn(words, each.time // MINUTE)
        yield Finding(Diagnostic(message, each.items[0].span), words, each.story)
