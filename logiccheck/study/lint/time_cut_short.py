"""Finds run-on times and pulses of the box that never come to their end while the box has power."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, Watched, is_timer, kind_of
from logiccheck.lang.program import Guard, Program, Signal, TimerKind

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class TimeCutShort(FindingMessage):
    """A lamp that was to go off by itself stays on until the whole box goes off.

    What it means
    The timer starts, but never ends by itself: before its time is over, what it looks at always comes again, or the box
    loses its power. An off-delay that looks at a blinking lamp, for instance, just keeps its output on.

    Write
    output lamp "Lamp" when off_delay(key_on, 5 s)

    Instead of
    rule beat   = blink(true, on 1 s, off 2 s)
    output lamp "Lamp" when off_delay(beat, 5 s)

    When to accept it
    Where it is meant to hold for as long as the box is awake.
    """

    item: str
    kind: str

    code: ClassVar[str] = "W142"
    name: ClassVar[str] = "time-cut-short"
    title: ClassVar[str] = "A run-on or pulse never ends by itself"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        before = "what it looks at comes again or " if self.kind == "off-delay" else ""
        return f"The {self.kind} in `{self.item}` never ends by itself: before that {before}the box loses its power."

    def hint(self) -> str:
        return "Make the time shorter, look at something that stays off, or keep the box awake for longer."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each off-delay or one-shot that starts and never ends by itself."""
    for watched in survey.watched:
        started = _started(watched)
        if started is not None and survey.passes(watched.noted(Note.WENT_OFF)) is False and survey.ever(started):
            message = TimeCutShort(watched.item.name, kind_of(watched.node))
            yield Finding(Diagnostic(message, watched.node.span), (watched.item.name,))


def _started(watched: Watched) -> Signal | None:
    if is_timer(watched.node, TimerKind.OFF_DELAY):
        return watched.noted(Note.FELL)
    return watched.noted(Note.WAS_ON) if is_timer(watched.node, TimerKind.ONE_SHOT) else None
