"""Finds outputs that are written differently and yet are always in the same state."""

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
class TwinOutput(FindingMessage):
    """Two things always come on and go off together, and one of them was meant to be different.

    What it means
    The lines of these outputs look different, but in every situation that can be reached both are on, or both are off.
    What makes the difference in their lines never makes one on the vehicle.

    Write
    output horn "Horn" when cranking
    output lamp "Lamp" when cranking and door_open

    Instead of
    output horn "Horn" when cranking
    output lamp "Lamp" when cranking and key_on

    When to accept it
    Where the two lines are to say why, and it is right that they agree.
    """

    words: tuple[str, ...]

    code, name, title = "W127", "twin-output", "Two outputs that are always alike"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"These outputs are written differently and are always in the same state: {quoted(self.words)}."

    def hint(self) -> str:
        return "Look at what should tell them apart; if nothing should, write the same line for each."

    def second(self) -> str:
        return "and this"


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a group."""
    from logiccheck.explain.surveyed.alike import outputs_alike

    for group in outputs_alike(survey):
        words = tuple(each.name for each in group)
        yield Finding(Diagnostic(TwinOutput(words), group[0].span, group[1].span), words)
