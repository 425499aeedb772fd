"""Finds on-delays of the box that never come: what they wait for always ends before their time is over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, is_timer
from logiccheck.lang.program import Guard, Program, TimerKind

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class DelayNeverOver(FindingMessage):
    """The warning that was to come after a while never comes, however long one waits.

    What it means
    What the on-delay waits for does come, but it always ends again, or the box loses its power, before the time is
    over. Often the time is too long for a pulse, or a blinking lamp is looked at and not its switch.

    Write
    output late "Warning" when on_delay(key_on, 5 s)

    Instead of
    rule short  = one_shot(key_on, 3 s)
    output late "Warning" when on_delay(short, 5 s)

    When to accept it
    Where the time is that long on purpose, to put something out of action for now.
    """

    item: str

    code: ClassVar[str] = "W141"
    name: ClassVar[str] = "delay-never-over"
    title: ClassVar[str] = "An on-delay never comes"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return (
            f"The on-delay in `{self.item}` never comes: what it waits for always ends, or the box loses its power,"
            " before the time is over."
        )

    def hint(self) -> str:
        return "Make the time shorter, or wait for something that lasts."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each on-delay that starts and never comes."""
    for watched in survey.watched:
        if not is_timer(watched.node, TimerKind.ON_DELAY):
            continue
        if survey.passes(watched.noted(Note.WAS_ON)) is False and survey.ever(watched.noted(Note.WAS_FED)):
            name = watched.item.name
            yield Finding(Diagnostic(DelayNeverOver(name), watched.node.span), (name,))
