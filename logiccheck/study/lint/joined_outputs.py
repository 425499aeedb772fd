"""Finds outputs that feed one wire, or wires that are joined, and can be on together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import And, Const, Expr, Guard, Or, Program, Signal, SignalKind

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class JoinedOutputs(FindingMessage):
    """An output that is off gets hot, or one fuse has to carry what two were meant for.

    What it means
    These outputs feed one wire, or wires that contacts join with no diode between, and there is a situation in which
    both are on. Then each feeds what the other should, and the one with the better wire carries nearly all of it.

    Write
    wire lamp_wire
    load lamp_strip on lamp_wire 1 A
    output day when door_open and not key_on feeds lamp_wire
    output night when key_on feeds lamp_wire

    Instead of
    wire lamp_wire
    load lamp_strip on lamp_wire 1 A
    output day when door_open feeds lamp_wire
    output night when key_on feeds lamp_wire

    When to accept it
    Where the maker of the box allows outputs side by side on one load.
    """

    words: tuple[str, str]
    wire: str

    code, name, title = "W131", "joined-outputs", "Two outputs feed one wire together"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"`{self.words[0]}` and `{self.words[1]}` both feed `{self.wire}`, and they can be on together."

    def hint(self) -> str:
        return "Give each a wire of its own and a diode, let one wait for the other, or use one output for both."

    def second(self) -> str:
        return "the other output"


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a pair, with the shortest story."""
    feeding = [each for each in (program.box.outputs if program.box is not None else ()) if each.feeds is not None]
    for one, two in combinations(feeding, 2):
        assert one.feeds is not None
        assert two.feeds is not None
        ways = list(_ways(program, one.feeds, two.feeds, ()))
        if not ways:
            continue
        on = [Signal(SignalKind.OUTPUT, each.name) for each in (one, two)]
        both = And((*on, Or(tuple(ways))))
        if survey.ever(both):
            message = JoinedOutputs((one.name, two.name), one.feeds)
            yield Finding(Diagnostic(message, one.span, two.span), (one.name, two.name), survey.story(both))


def _ways(program: Program, here: str, there: str, passed: tuple[str, ...]) -> Iterator[Expr]:
    """The conditions of the contacts on each way between two wires; nothing passes a source or a ground."""
    if here == there:
        yield Const(True)
        return
    wires = {wire.name for wire in program.wires} - {*passed, here}
    for contact in program.contacts:
        ends = (contact.left, contact.right)
        if here in ends and (other := ends[1 - ends.index(here)]) in wires:
            yield from (And((contact.condition, way)) for way in _ways(program, other, there, (*passed, here)))
