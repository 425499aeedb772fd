"""Finds relays that nothing lets go once they are pulled."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Signal, SignalKind

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class NeverLetGo(FindingMessage):
    """It came on once, and only pulling the battery cable turns it off.

    What it means
    The relay holds itself, or something that it switches holds it. No hand, no timer and nothing that is measured lets
    it go, as long as what has constant power keeps it.

    Write
    relay night_relay coil door_wire
    load lamp_strip on strip_wire 1 A
    wire strip_wire from plus when night_relay

    Instead of
    relay night_relay coil door_wire or night_relay
    load lamp_strip on strip_wire 1 A
    wire strip_wire from plus when night_relay

    When to accept it
    Where it is a seal: it is to show for good that something has happened.
    """

    word: str

    code, name, title = "W132", "never-let-go", "A relay that nothing lets go"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"Once the relay `{self.word}` is pulled, nothing lets it go but a loss of constant power."

    def hint(self) -> str:
        return "Write in its coil what lets it go: `and not` a switch, or a time limit."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each, with the story in which it is pulled."""
    from logiccheck.explain.surveyed.held import held_for_ever

    for relay in held_for_ever(survey):
        story = survey.story(Signal(SignalKind.RELAY, relay.name))
        yield Finding(Diagnostic(NeverLetGo(relay.name), relay.span), (relay.name,), story)
