"""Finds boxes that keep themselves awake for ever: their own outputs feed what wakes them, and nothing ends it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.awake import own_doing
from logiccheck.lang.program import Guard, Program, SignalKind
from logiccheck.model.play import play_story

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class KeepsItselfAwake(FindingMessage):
    """The door was opened for a moment in the evening, and in the morning the battery is flat.

    What it means
    An output of the box feeds a wire that keeps the box awake. There is a situation in which nothing else keeps it
    awake, no timer runs that could end it, and so it stays awake until a hand does something.

    Write
    wire wake
    wire keep
    diode door_wire -> wake
    diode keep -> wake
    controller "Box" powered by wake
        output keep_up "Stay awake" when off_delay(door_open, 1 min)   feeds keep

    Instead of
    wire wake
    wire keep
    diode door_wire -> wake
    diode keep -> wake
    controller "Box" powered by wake
        output keep_up "Stay awake" when not key_on   feeds keep

    When to accept it
    Where the box is turned off by a button, and is to stay on until then.
    """

    outputs: tuple[str, ...]

    code: ClassVar[str] = "W152"
    name: ClassVar[str] = "keeps-itself-awake"
    title: ClassVar[str] = "The box keeps itself awake for ever"
    guards: ClassVar[Guard] = Guard.DAMAGE

    def sentence(self) -> str:
        which = ", ".join(f"`{name}`" for name in self.outputs)
        return f"The box can keep itself awake for ever, by its own output and nothing else: {which}."

    def hint(self) -> str:
        return "Let a timer end it, or take the output off the wires that wake the box."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding at most, with the story that leads to it."""
    alone = own_doing(program, survey)
    if alone is None or not survey.ever(alone.condition):
        return
    story = survey.story(alone.condition)
    if story is None or program.box is None:
        return
    ended = play_story(program, story).settled[-1].moment.settled.values.named(SignalKind.OUTPUT)
    on = tuple(name for name in alone.outputs if name in ended)
    place = next(output.span for output in program.box.outputs if output.name == on[0])
    yield Finding(Diagnostic(KeepsItselfAwake(on), place), on, story)
