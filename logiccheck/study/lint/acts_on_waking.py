"""Finds edges and pulses of the box that act at waking on what was so before, although nothing rose then."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note, is_timer, kind_of
from logiccheck.explain.surveyed.waking import POWERED, as_if_awake, operand
from logiccheck.lang.program import And, Bistable, Edge, Expr, Guard, Impulse, Not, Or, Previous, Program, TimerKind
from logiccheck.lang.walk import Memory

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class ActsOnWaking(FindingMessage):
    """The wiper makes a stroke, or the fog lamp comes on, as the key is turned, though nobody touched its switch.

    What it means
    A sleeping box forgets. At waking it takes what is on already for something that has just come on, and `rises`, a
    one-shot or an impulse relay acts on it. A sense with a filter time reads off until that is over, and comes on then.
    There it takes longer than the filter time to see something off: `bistable(set on_delay(not x, 1 s))`.

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
    filtered: bool = False  # it looks at something behind a filter time

    code: ClassVar[str] = "W145"
    name: ClassVar[str] = "acts-on-waking"
    title: ClassVar[str] = "It acts on waking although nothing rose"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The {self.kind} in `{self.item}` acts when the box wakes, on something that was on already."

    def hint(self) -> str:
        if self.filtered:
            seen = "for longer than the filter time, as `bistable(set on_delay(not x, 1 s))` remembers"
            return f"Let it act only on what was seen off since waking {seen}; or accept it."
        return "Let it act only on what was seen off since waking, as `bistable(set not x)` remembers; or accept it."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each whose input is plain, with the story of such a waking."""
    for watched in survey.watched:
        node = watched.node
        if not _acts(node):
            continue
        at_once = as_if_awake(program, operand(node))
        there = as_if_awake(program, operand(node), filtered=True)
        if there is None:
            continue
        acted = watched.noted(Note.SINCE_WAKING)
        shown = And((POWERED, _unbroken(there), acted)) if at_once is None else And((_found(there), acted))
        if survey.ever(shown):
            message = ActsOnWaking(watched.item.name, kind_of(node), at_once is None)
            yield Finding(Diagnostic(message, node.span), (watched.item.name,), survey.story(shown))


def _acts(node: Memory) -> bool:
    return is_timer(node, TimerKind.ONE_SHOT) or isinstance(node, Impulse) or (isinstance(node, Edge) and node.rising)


def _found(there: Expr) -> Expr:
    """The box wakes at this moment, and it is there, as it was before."""
    return And((Edge(True, POWERED, "the box wakes"), Previous(there, "before it woke"), there))


def _unbroken(there: Expr) -> Expr:
    """It has been there without a break since before the box woke."""
    return Bistable(_found(there), Or((Not(there), Not(POWERED))), False, False, "there since before it woke")
