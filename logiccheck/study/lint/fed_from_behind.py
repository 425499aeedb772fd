"""Finds outputs on a wire that copper feeds as well, through contacts and with no diode between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.program import Guard, Output, Program, SignalKind


@frozen
class FedFromBehind(FindingMessage):
    """The box stays awake after the key is out, or its output gets hot while it is off.

    What it means
    The output feeds a wire that copper feeds as well, through contacts alone. While the output is on it feeds back into
    whatever else hangs there, such as the wire by which the box senses the key; while it is off it is fed from behind.

    Write
    wire radio_wire
    diode key_wire -> radio_wire
    load radio_set on radio_wire 4 A
    output radio when key_on feeds radio_wire

    Instead of
    output radio when key_on feeds key_wire

    When to accept it
    Where two feeds of one wire are meant, and the maker of the box lets its outputs be fed from behind.
    """

    output: str
    wire: str

    code, name, title = "W106", "fed-from-behind", "An output on a wire that copper feeds"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"The output `{self.output}` feeds `{self.wire}`, which copper feeds as well, with no diode between."

    def hint(self) -> str:
        return "Give the output a wire of its own, or put a diode where copper feeds it."

    def second(self) -> str:
        return "Here copper feeds it"


def find(program: Program) -> Iterator[Finding]:
    """One for each output, in the order of the box."""
    for output in program.box.outputs if program.box is not None else ():
        if output.feeds is not None and (place := _fed_at(program, output, output.feeds)) is not None:
            message = FedFromBehind(output.name, output.feeds)
            yield Finding(Diagnostic(message, output.span, place), (output.name, output.feeds))


def _fed_at(program: Program, output: Output, wire: str) -> Span | None:
    """Where a contact leads from something else that can be live to the wire."""
    assert program.box is not None
    sources = {source.name for source in program.sources}
    others = tuple(each for each in program.box.rules if not isinstance(each, Output) or each.feeds != wire)
    away = tuple(each for each in program.contacts if wire not in (each.left, each.right))
    diodes = tuple(each for each in program.diodes if each.anode != wire)
    without = replace(program, contacts=away, diodes=diodes, box=replace(program.box, rules=others))
    for contact in program.contacts:
        if wire in (contact.left, contact.right):
            end = contact.left if contact.right == wire else contact.right
            if end in sources or can_arrive(without, end, SignalKind.LIVE):
                return contact.span
    return None
