"""Finds off-delays and falls of the box that never see their input go off, because the box is asleep by then."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, Watched, is_timer, kind_of
from logiccheck.explain.surveyed.waking import operand
from logiccheck.lang.program import Edge, Guard, Not, Program, Signal, TimerKind

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class FallNeverSeen(FindingMessage):
    """The fan was to run on after the key is turned off, and it stops together with everything else.

    What it means
    What the off-delay, or `falls`, looks at never goes off while the box has power: the box loses its power at the same
    moment, or before. A box that sleeps runs no timer and sees no edge, so this one never does anything.

    Write
    relay hold "Hold relay" coil off_delay(key_wire, 2 min +- 10 %) supply plus
    wire held from plus when hold
    controller "Box" powered by held
        rule started = bistable(set cranking, reset not key_on)
        output fan "Fan" when off_delay(started, 1 min)

    Instead of
    controller "Box" powered by key_wire
        rule started = bistable(set cranking)
        output fan "Fan" when off_delay(started, 1 min)

    When to accept it
    Where the same rules stand in a vehicle whose box stays awake.
    """

    item: str
    kind: str

    code: ClassVar[str] = "W144"
    name: ClassVar[str] = "fall-never-seen"
    title: ClassVar[str] = "The box never sees its input go off"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return (
            f"The {self.kind} in `{self.item}` never sees its input go off: once that is on, it stays on for as long as"
            " the box has power."
        )

    def hint(self) -> str:
        return "Keep the box awake for longer, for instance by a relay with an off-delay."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each; none where the input is one name that is always on, and that is told, or written."""
    from logiccheck.explain.surveyed.steady import Change, changeless

    still = {each.name for each in changeless(survey) if each.change is not Change.AWAKE}
    for watched in survey.watched:
        node = watched.node
        falls = isinstance(node, Edge) and not node.rising
        if (falls or is_timer(node, TimerKind.OFF_DELAY)) and _never_falls(watched, survey, still):
            message = FallNeverSeen(watched.item.name, kind_of(node))
            yield Finding(Diagnostic(message, node.span), (watched.item.name,))


def _never_falls(watched: Watched, survey: Survey, still: set[str]) -> bool:
    if survey.passes(watched.noted(Note.FELL)) is not False or not survey.ever(watched.noted(Note.WAS_FED)):
        return False
    x = operand(watched.node)
    name = x.x if isinstance(x, Not) else x
    return not (isinstance(name, Signal) and name.name in still)
