"""Finds blinkers of the box that are never on for a whole phase, so that nothing ever blinks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note
from logiccheck.lang.program import Blink, Guard, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class BlinkCutShort(FindingMessage):
    """The lamp that was to blink just lights up.

    What it means
    The blinker is switched off, or the box loses its power, before its first on-phase is over: there is never a dark
    phase between two bright ones.

    Write
    output lamp "Lamp" when blink(key_on, on 0.5 s, off 0.5 s)

    Instead of
    rule short  = one_shot(key_on, 2 s)
    output lamp "Lamp" when blink(short, on 5 s, off 5 s)

    When to accept it
    Where one flash is all that is wanted; a one-shot says so more plainly.
    """

    item: str

    code: ClassVar[str] = "W143"
    name: ClassVar[str] = "blink-cut-short"
    title: ClassVar[str] = "A blinker never blinks"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The blinker in `{self.item}` never blinks: it never lasts until its first bright phase is over."

    def hint(self) -> str:
        return "Make its phases shorter, or let it blink for longer."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each blinker that is on and never reaches its off-phase."""
    for watched in survey.watched:
        if (
            isinstance(watched.node, Blink)
            and survey.passes(watched.noted(Note.WAITED)) is False
            and survey.ever(watched.noted(Note.WAS_ON))
        ):
            name = watched.item.name
            yield Finding(Diagnostic(BlinkCutShort(name), watched.node.span), (name,))
