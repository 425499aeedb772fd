"""Finds outputs that are on whenever the box has power, and relays that never drop, though nobody wrote it so."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Output, Program, Relay
from logiccheck.study.following import because

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class AlwaysOn(FindingMessage):
    """Something is on all the time, and the switch that is meant for it does nothing.

    What it means
    Whenever the box has power this output is on; or this relay is closed whenever its battery is connected. Its line
    names conditions, but in every situation that can be reached they let it be on. Often an `or` stands where an `and`
    was meant, or a `not` too much.

    Write
    output lamp "Cabin lamp" when door_open and not cranking

    Instead of
    output lamp "Cabin lamp" when key_on or not cranking

    When to accept it
    Never: what is to be always on is written as `when true`, and then nobody looks for a switch.
    """

    what: str
    word: str
    while_: str
    never: tuple[str, ...]
    always: tuple[str, ...]

    code, name, title = "W122", "always-on", "It is always on"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"The {self.what} `{self.word}` is always on while {self.while_}.{because(self.never, self.always)}"

    def hint(self) -> str:
        return "If it is meant so, write `when true`; else look at which of its conditions should have turned it off."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a cause, with all that follows from it."""
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        if each.change is Change.ALWAYS and isinstance(each.item, Output | Relay):
            output = isinstance(each.item, Output)
            while_ = "the box has power" if output else "what is live at first is live"
            message = AlwaysOn("output" if output else "relay", each.name, while_, each.never, each.always)
            yield Finding(Diagnostic(message, each.span), each.names)
