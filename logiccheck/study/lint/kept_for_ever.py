"""Finds bistables that keep their state without power and that nothing ever resets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note
from logiccheck.lang.program import Bistable, Const, Guard, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class KeptForEver(FindingMessage):
    """It happened once, years ago, and the vehicle has not forgotten it since; taking the battery off does not help.

    What it means
    The bistable is `retained`, so that it stays set without power, and it has no reset. Once it is set nothing on this
    vehicle can ever turn it off.

    Write
    output notice "Notice" when key_on and bistable(set door_open, reset cranking and not door_open, retained)

    Instead of
    output notice "Notice" when key_on and bistable(set door_open, retained)

    When to accept it
    Where it is a seal that only the workshop is to take off.
    """

    item: str

    code: ClassVar[str] = "W149"
    name: ClassVar[str] = "kept-for-ever"
    title: ClassVar[str] = "Nothing ever turns it off"
    guards: ClassVar[Guard] = Guard.DAMAGE

    def sentence(self) -> str:
        return (
            f"Once the bistable in `{self.item}` is set, nothing can ever turn it off: it is retained and has no reset."
        )

    def hint(self) -> str:
        return "Write what resets it, or leave `retained` out."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each that can be set at all, with the story in which it is."""
    for watched in survey.watched:
        node = watched.node
        if (
            isinstance(node, Bistable)
            and node.retained
            and node.reset == Const(False)
            and survey.ever(watched.noted(Note.WAS_ON))
        ):
            name = watched.item.name
            yield Finding(Diagnostic(KeptForEver(name), node.span), (name,), survey.story(watched.noted(Note.WAS_ON)))
