"""Finds edges and pulses of the box that act at waking on what was so before, although nothing rose then."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.probed import Note, Watched, is_timer, kind_of
from logiccheck.explain.waking import POWERED, as_if_awake, operand
from logiccheck.lang.program import And, Edge, Expr, Guard, Impulse, Previous, Program, TimerKind

if TYPE_CHECKING:
    from logiccheck.explain.survey import Survey


@frozen
class ActsOnWaking(FindingMessage):
    """The wiper makes a stroke, or the fog lamp comes on, as the key is turned, though nobody touched its switch.

    What it means
    A sleeping box forgets. At waking it takes what is on already for something that has just come on, and `rises`, a
    one-shot or an impulse relay acts on it.

    Write
    controller "Box" powered by key_wire
        rule seen_shut = bistable(set not door_open)
        output wiper "Wiper" when one_shot(door_open and seen_shut, 2 s)

    Instead of
    controller "Box" powered by key_wire
        output wiper "Wiper" when one_shot(door_open, 2 s)

    When to accept it
    Where it is to act on waking, too, as a pump that builds up pressure.
    """

    item: str
    kind: str

    code: ClassVar[str] = "W145"
    name: ClassVar[str] = "acts-on-waking"
    title: ClassVar[str] = "It acts on waking although nothing rose"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The {self.kind} in `{self.item}` acts when the box wakes, on something that was on already."

    def hint(self) -> str:
        return "Let it act only on what was seen off since waking, as `bistable(set not x)` remembers; or accept it."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each whose input is plain, with the story of such a waking."""
    for watched in survey.watched:
        shown = _condition(program, watched)
        if shown is not None and survey.ever(shown):
            message = ActsOnWaking(watched.item.name, kind_of(watched.node))
            yield Finding(Diagnostic(message, watched.node.span), (watched.item.name,), survey.story(shown))


def _condition(program: Program, watched: Watched) -> Expr | None:
    node = watched.node
    if not (
        is_timer(node, TimerKind.ONE_SHOT) or isinstance(node, Impulse) or (isinstance(node, Edge) and node.rising)
    ):
        return None
    there = as_if_awake(program, operand(node))
    if there is None:
        return None
    woke = Edge(True, POWERED, "the box wakes")
    before = Previous(there, "before it woke")
    return And((woke, before, there, watched.noted(Note.SINCE_WAKING)))
