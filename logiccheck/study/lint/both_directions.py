"""Finds two outputs that move one thing and can be on together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import And, ChangesOnlyWhile, Guard, Output, Program, Signal, SignalKind
from logiccheck.lang.walk import references

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class BothDirections(FindingMessage):
    """A motor stands still and gets hot, or a fuse blows while a step or a window is moved.

    What it means
    What is given says that this thing of the world moves only while one of these outputs is on: they are the two
    directions of its motor. There is a situation in which both are on.

    Write
    world
        step "Folding step" stowed | between | lowered one by one
    controller "Box" powered by feed
        output step_down when door_open and not key_on
        output step_up when not door_open
    given
        step changes only while step_down or step_up

    Instead of
    world
        step "Folding step" stowed | between | lowered one by one
    controller "Box" powered by feed
        output step_down when door_open
        output step_up when key_on
    given
        step changes only while step_down or step_up

    When to accept it
    Where both work in one direction, or the motor is made to be braked so.
    """

    thing: str
    words: tuple[str, str]

    code, name, title = "W130", "both-directions", "Both directions at once"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"`{self.words[0]}` and `{self.words[1]}` both move `{self.thing}`, and they can be on together."

    def hint(self) -> str:
        return f"Let one of them wait for the other: `and not {self.words[0]}` in the line of `{self.words[1]}`."

    def second(self) -> str:
        return "the other direction"


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a pair, with the shortest story."""
    outputs: dict[str, Output] = {each.name: each for each in (program.box.outputs if program.box is not None else ())}
    told: set[tuple[str, str]] = set()
    for given in program.givens:
        if not isinstance(given, ChangesOnlyWhile):
            continue
        movers = [leaf.name for leaf in references(given.y) if leaf.name in outputs]
        for one, two in combinations(dict.fromkeys(movers), 2):
            both = And((Signal(SignalKind.OUTPUT, one), Signal(SignalKind.OUTPUT, two)))
            if (one, two) not in told and survey.ever(both):
                told.add((one, two))
                place = Diagnostic(BothDirections(given.name, (one, two)), outputs[one].span, outputs[two].span)
                yield Finding(place, (one, two), survey.story(both))
