"""Finds stored states of the box that have a reset which never comes while they are set."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, Watched, kind_of
from logiccheck.explain.surveyed.waking import POWERED, answers_for_itself
from logiccheck.lang.program import And, Bistable, Const, Guard, Impulse, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class NeverReset(FindingMessage):
    """Once the lamp is on, the button that was to turn it off does nothing.

    What it means
    There is a reset, but it never takes effect: it never comes while the state is set, it comes only together with what
    sets it and `set wins`, or the box has lost its power by then. Of an impulse relay without reset: its input never
    rises a second time.

    Write
    output lamp "Lamp" when bistable(set door_open, reset not key_on, set wins)

    Instead of
    output lamp "Lamp" when bistable(set door_open or not key_on, reset not key_on and not door_open, set wins)

    When to accept it
    Where the state is to stay until the box loses its power; then the reset is better left out.
    """

    item: str
    kind: str
    retained: bool
    reset: bool  # a reset is written

    code: ClassVar[str] = "W148"
    name: ClassVar[str] = "never-reset"
    title: ClassVar[str] = "A stored state is never reset"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        until = "for ever" if self.retained else "until the box loses its power"
        why = "its reset never takes effect" if self.reset else "its input never rises again"
        return f"Once set, the {self.kind} in `{self.item}` stays set {until}: {why}."

    def hint(self) -> str:
        return "Look what has to be so for the reset, and whether it can be so while this is set."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each that can be set, and never goes off while the box has power; none where its reset never
    comes and is one name, or remembers: that has a finding itself."""
    for watched in survey.watched:
        node = watched.node
        if isinstance(node, Bistable | Impulse) and _stays(node, watched, survey):
            written = node.reset != Const(False)
            message = NeverReset(watched.item.name, kind_of(node), node.retained, written)
            yield Finding(Diagnostic(message, node.span), (watched.item.name,))


def _stays(node: Bistable | Impulse, watched: Watched, survey: Survey) -> bool:
    if isinstance(node, Bistable) and node.reset == Const(False):
        return False  # meant to stay; of one that is retained another finding speaks
    if survey.passes(watched.noted(Note.WENT_OFF)) is not False or not survey.ever(watched.noted(Note.WAS_ON)):
        return False
    return not answers_for_itself(node.reset) or survey.ever(And((POWERED, watched.reset))) is True
