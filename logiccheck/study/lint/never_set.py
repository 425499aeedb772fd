"""Finds stored states of the box that can never be set, and says where reset is in the way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, kind_of
from logiccheck.explain.surveyed.waking import POWERED, answers_for_itself, operand
from logiccheck.lang.program import Bistable, Guard, Impulse, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class NeverSet(FindingMessage):
    """The alarm that was to be kept until it is seen never shows.

    What it means
    The bistable or impulse relay is never on, in no situation. Either what sets it can never be so, or it comes only
    while reset is so, too, and reset wins unless `set wins` is written.

    Write
    output alarm "Alarm" when bistable(set door_open, reset not key_on, set wins)

    Instead of
    output alarm "Alarm" when bistable(set door_open and not key_on, reset not key_on)

    When to accept it
    Where what sets it comes with something that is not fitted yet.
    """

    item: str
    kind: str
    reset_wins: bool  # what sets it does come, each time together with reset

    code: ClassVar[str] = "W147"
    name: ClassVar[str] = "never-set"
    title: ClassVar[str] = "A stored state is never set"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        why = "each time it comes, reset is so, too, and reset wins" if self.reset_wins else "what sets it never comes"
        return f"The {self.kind} in `{self.item}` is never set: {why}."

    def hint(self) -> str:
        if self.reset_wins:
            return "Write what else has to be so for reset, or `set wins` if it is to win."
        return "Look which two parts of what sets it exclude each other."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each that is never on; none where one name is to blame, or what has a finding itself."""
    for watched in survey.watched if survey.ever(POWERED) else ():
        node = watched.node
        if isinstance(node, Bistable | Impulse) and survey.passes(watched.noted(Note.WAS_ON)) is False:
            comes = survey.passes(watched.noted(Note.WAS_FED))
            if comes is None or (not comes and answers_for_itself(operand(node))):
                continue
            message = NeverSet(watched.item.name, kind_of(node), comes)
            yield Finding(Diagnostic(message, node.span), (watched.item.name,))
