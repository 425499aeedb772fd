"""Finds outputs, relays and loads that come on, but only for an instant that has no length."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Load, Output, Program, Relay, Signal
from logiccheck.study.following import because

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class OnForAnInstant(FindingMessage):
    """A horn only clicks, or a relay twitches, where it should sound or pull.

    What it means
    It does come on, but in no situation does it stay on: it is off again before anything else happens, as fast as the
    box can react. An edge (`rises`, `falls`) is so for one reaction only, and no load does anything in that time.

    Write
    output horn "Horn" when door_open and not on_delay(door_open, 2 s)

    Instead of
    output horn "Horn" when rises(door_open)

    When to accept it
    Where the instant is all that is wanted: something outside counts the pulses, and is fast enough for them.
    """

    what: str
    word: str
    never: tuple[str, ...]
    always: tuple[str, ...]

    code, name, title = "W123", "on-for-an-instant", "It is on for an instant only"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        what = f"The {self.what} `{self.word}` is on for an instant only, and never stays on."
        return what + because(self.never, self.always)

    def hint(self) -> str:
        return "Give it a length: a one-shot, an off-delay, or a stored state that something resets."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a cause, with the story of one instant."""
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        if each.change is Change.INSTANT:
            what = "output" if isinstance(each.item, Output) else "relay" if isinstance(each.item, Relay) else "load"
            assert isinstance(each.item, Output | Relay | Load)
            message = OnForAnInstant(what, each.name, each.never, each.always)
            yield Finding(Diagnostic(message, each.span), each.names, each.story, Signal(*each.key))
