"""Finds outputs, relays and loads that can never be on, whatever hands and timers do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Load, Output, Program, Relay
from logiccheck.study.following import because

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class NeverOn(FindingMessage):
    """A lamp, a pump or a relay does nothing, whatever one tries.

    What it means
    In no situation that can be reached is it on, not even for an instant. That is proved for all positions of hands,
    all orders and all timings. Most often two conditions in its line exclude each other, because of how the wires are
    laid: the key position that the one needs is none in which the other can be so. Or what feeds it is never live.

    Write
    output horn "Horn" when cranking and key_on

    Instead of
    output horn "Horn" when cranking and not key_on

    When to accept it
    Where it waits for something that is wired later.
    """

    what: str
    word: str
    never: tuple[str, ...]
    always: tuple[str, ...]

    code, name, title = "W121", "never-on", "It can never be on"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The {self.what} `{self.word}` can never be on.{because(self.never, self.always)}"

    def hint(self) -> str:
        return "Look at what has to be so for it: all of that can never be so at once."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a cause, with all that follows from it; none where two that always say the same are the cause."""
    from logiccheck.explain.surveyed.alike import ruled_out
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        told = each.name in ruled_out(survey)
        if each.change is Change.NEVER and not told and isinstance(each.item, Output | Relay | Load):
            what = "output" if isinstance(each.item, Output) else "relay" if isinstance(each.item, Relay) else "load"
            message = NeverOn(what, each.name, each.never, each.always)
            yield Finding(Diagnostic(message, each.span), each.names)
