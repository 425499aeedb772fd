"""Finds timers of the box that keep an output on and are cut off because the box falls asleep before they end."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.cutting import Cut, cuts
from logiccheck.explain.surveyed.probed import Note, kind_of
from logiccheck.lang.program import Guard, Program

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class HoldTooShort(FindingMessage):
    """The fan that was to run on for three minutes stops after two, some days.

    What it means
    A timer keeps an output on, and the box loses its power while it runs, although no hand moves then: what holds the
    box awake lasts no longer than that, in the worst case of its tolerance. The box that times it is off, and so is the
    output.

    Write
    relay hold "Hold relay" coil off_delay(key_wire, 2 min +- 30 %) supply plus
    wire held from plus when hold
    controller "Box" powered by held
        output fan "Fan" when off_delay(key_on, 1 min)

    Instead of
    relay hold "Hold relay" coil off_delay(key_wire, 2 min +- 30 %) supply plus
    wire held from plus when hold
    controller "Box" powered by held
        output fan "Fan" when off_delay(key_on, 2 min)

    When to accept it
    Where the output may go off together with the box.
    """

    item: str
    kind: str
    outputs: tuple[str, ...]

    code: ClassVar[str] = "W151"
    name: ClassVar[str] = "hold-too-short"
    title: ClassVar[str] = "The box falls asleep before a timer is over"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        kept = ", ".join(f"`{name}`" for name in self.outputs)
        return (
            f"The {self.kind} in `{self.item}` is cut off: the box can fall asleep by itself while this timer alone"
            f" keeps on: {kept}."
        )

    def hint(self) -> str:
        return "Hold the box awake for longer than the timer lasts, tolerances included."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each timer, for all outputs that it keeps on, with the story for the first; none where the
    timer never ends but so, which is another finding."""
    found: dict[str, list[Cut]] = {}
    for cut in cuts(program, survey):
        found.setdefault(cut.watched.node.key, []).append(cut)
    for those in found.values():
        if survey.passes(those[0].watched.noted(Note.WENT_OFF)) is False:
            continue
        watched, outputs = those[0].watched, tuple(cut.output for cut in those)
        message = HoldTooShort(watched.item.name, kind_of(watched.node), outputs)
        signals = tuple(dict.fromkeys((watched.item.name, *outputs)))
        yield Finding(Diagnostic(message, watched.node.span), signals, those[0].story)
