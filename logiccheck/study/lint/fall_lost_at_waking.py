"""Finds falls that the box cannot see because the very hand that ends its input wakes the box."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Watched
from logiccheck.explain.surveyed.waking import as_if_awake, fed, hands, moves, operand
from logiccheck.lang.program import And, Edge, Expr, Guard, Not, Or, Previous, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class FallLostAtWaking(FindingMessage):
    """Opening the door was to start something, and it does, but never when one comes to the parked vehicle.

    What it means
    The box is woken by the very hand whose movement `falls` is to notice. By the time the box is awake the input is off
    already; it never saw it on, so to the box nothing fell. `rises` of the opposite is noticed at waking as well.

    Write
    wire shut_wire from plus when door is closed
    relay hold "Hold relay" coil off_delay(door_wire, 2 min +- 10 %) supply plus
    wire held from plus when hold
    controller "Box" powered by held
        sense shut from shut_wire live
        output pump "Pump" when one_shot(rises(not shut), 3 s)

    Instead of
    wire shut_wire from plus when door is closed
    relay hold "Hold relay" coil off_delay(door_wire, 2 min +- 10 %) supply plus
    wire held from plus when hold
    controller "Box" powered by held
        sense shut from shut_wire live
        output pump "Pump" when one_shot(falls(shut), 3 s)

    When to accept it
    Where it is to be noticed only while the box has been awake before.
    """

    item: str

    code: ClassVar[str] = "W146"
    name: ClassVar[str] = "fall-lost-at-waking"
    title: ClassVar[str] = "What wakes the box is not noticed"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return f"`falls` in `{self.item}` misses its fall where the same hand wakes the box: the box never saw it on."

    def hint(self) -> str:
        return "Write `rises` of the opposite: at waking it acts on what is so already."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each fall of something plain, with the story of such a waking."""
    for watched in survey.watched:
        shown = _condition(program, watched)
        if shown is not None and survey.ever(shown):
            name = watched.item.name
            yield Finding(Diagnostic(FallLostAtWaking(name), watched.node.span), (name,), survey.story(shown))


def _condition(program: Program, watched: Watched) -> Expr | None:
    """What feeds the box comes, what falls goes, and no hand moves but one on which both depend."""
    node, feed = watched.node, fed(program)
    if not isinstance(node, Edge) or node.rising or feed is None:
        return None
    there = as_if_awake(program, operand(node))
    if there is None:
        return None
    all_hands = hands(program, feed, there)
    shared = hands(program, feed) & hands(program, there)
    one_hand = Or(tuple(Not(moves(program, all_hands - {hand}, hand)) for hand in sorted(shared)))
    return And((Edge(True, feed, "the box is fed"), Previous(there, "before it woke"), Not(there), one_hand))
