"""Finds timers of the box whose input is never on in any situation, so that they never run."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, kind_of
from logiccheck.explain.surveyed.waking import POWERED, answers_for_itself, operand
from logiccheck.lang.program import Blink, Guard, Program, Timer

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class TimerNeverStarts(FindingMessage):
    """A light was to go out late, a fan to run on, and nothing of the kind ever happens.

    What it means
    What the timer looks at can never be on while the box is awake, whatever hands do. Two things that exclude each
    other were joined with `and`, or one of them is the wrong way round.

    Write
    output lamp "Lamp" when off_delay(key_on and not cranking, 10 s)

    Instead of
    output lamp "Lamp" when off_delay(cranking and not key_on, 10 s)

    When to accept it
    Where the part that is never on comes with something that is not fitted yet.
    """

    item: str
    kind: str

    code: ClassVar[str] = "W140"
    name: ClassVar[str] = "timer-never-starts"
    title: ClassVar[str] = "A timer never starts"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The {self.kind} in `{self.item}` never starts: what it waits for can never be so."

    def hint(self) -> str:
        return "Look which two parts of it exclude each other; ask `why` when each of them is on."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each timer; none where what it looks at is one name, or remembered, and has a finding itself."""
    for watched in survey.watched if survey.ever(POWERED) else ():
        own = isinstance(watched.node, Timer | Blink) and not answers_for_itself(operand(watched.node))
        if own and survey.passes(watched.noted(Note.WAS_FED)) is False:
            message = TimerNeverStarts(watched.item.name, kind_of(watched.node))
            yield Finding(Diagnostic(message, watched.node.span), (watched.item.name,))
