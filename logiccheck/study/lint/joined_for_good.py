"""Finds two wires, each with a feed of its own, that are joined for good with no diode and no contact between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.program import Const, Guard, Program, SignalKind


@frozen
class JoinedForGood(FindingMessage):
    """A door is opened, and what only the key should switch on comes on as well.

    What it means
    Each of the two wires has a feed of its own, and they are joined with no diode and no contact between: what makes
    one live makes the other live, in both directions.

    Write
    wire wake
    diode door_wire -> wake
    diode key_wire  -> wake
    sense awake from wake live
    output lamp when awake
    output radio when key_on

    Instead of
    wire wake
    diode door_wire -> wake
    join  key_wire with wake
    sense awake from wake live
    output lamp when awake
    output radio when key_on

    When to accept it
    Where both feeds come from the same place, and it does not matter which of them is on.
    """

    left: str
    right: str

    code, name, title = "W105", "joined-for-good", "Two fed wires with nothing between"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"`{self.left}` and `{self.right}` have a feed each, and nothing parts them: each makes the other live."

    def hint(self) -> str:
        return "Put a diode between them that lets through one way only, or a contact."


def find(program: Program) -> Iterator[Finding]:
    """One for each such joint, in the order of the vehicle."""
    wires = {wire.name for wire in program.wires}
    for contact in program.contacts:
        if contact.condition != Const(True) or not {contact.left, contact.right} <= wires:
            continue
        parted = replace(program, contacts=tuple(each for each in program.contacts if each is not contact))
        if all(can_arrive(parted, wire, SignalKind.LIVE) for wire in (contact.left, contact.right)):
            message = JoinedForGood(contact.left, contact.right)
            yield Finding(Diagnostic(message, contact.span), (contact.left, contact.right))
