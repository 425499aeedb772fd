"""Finds a box that never has power."""

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
class NeverPowered(FindingMessage):
    """The vehicle is dead: nothing that the controller switches ever comes on.

    What it means
    In no situation that can be reached does the box have power. What feeds it is never live, or never for as long as
    the box takes to start. A hold relay whose coil hangs on a wire that the box itself has to feed is never pulled.

    Write
    harness
        relay hold coil key_wire
        wire box_supply from plus when hold
    controller "Box" powered by box_supply
        output lamp "Lamp" when key_on

    Instead of
    harness
        relay hold coil lamp
        wire box_supply from plus when hold
    controller "Box" powered by box_supply
        output lamp "Lamp" when key_on

    When to accept it
    Never: whatever else is said of the box, it says nothing.
    """

    word: str

    code, name, title = "W133", "never-powered", "The box never has power"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The box never has power: `{self.word}`, which feeds it, is never live, or not for long enough."

    def hint(self) -> str:
        return "Look at what has to be so for its feed to be live: who makes it so while the box sleeps?"


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """At most one."""
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        if each.change is Change.NEVER and each.item is None:
            assert program.box is not None
            feed = program.box.feed
            yield Finding(Diagnostic(NeverPowered(feed), each.span), (feed, *each.names))
