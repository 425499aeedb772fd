"""Finds diodes through which nothing can ever pass, such as those that point the wrong way."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.program import Guard, Program, SignalKind


@frozen
class BackwardDiode(FindingMessage):
    """One of several switches does not wake the box, though each of the others does.

    What it means
    Nothing can make the wire before the diode live, and nothing can ground the wire behind it; so nothing ever passes.
    Most often its two wires are the wrong way round.

    Write
    wire wake
    diode key_wire  -> wake
    diode door_wire -> wake
    sense awake from wake live
    output lamp when awake

    Instead of
    wire wake
    wire lid_wire
    diode key_wire  -> wake
    diode wake -> door_wire
    diode lid_wire -> wake
    sense awake from wake live
    output lamp when awake

    When to accept it
    Where the wire before it is fed later.
    """

    anode: str
    cathode: str
    turned: bool  # something could pass the other way

    code, name, title = "W104", "backward-diode", "Nothing passes the diode"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"Nothing can ever pass the diode from `{self.anode}` to `{self.cathode}`."

    def hint(self) -> str:
        if self.turned:
            return f"`{self.cathode}` can be live, `{self.anode}` cannot: does it point the wrong way?"
        return f"Feed `{self.anode}`, or take the diode out."


def find(program: Program) -> Iterator[Finding]:
    """One for each diode, in the order of the vehicle."""
    live, grounded = SignalKind.LIVE, SignalKind.GROUNDED
    sources = {source.name for source in program.sources}
    grounds = {ground.name for ground in program.grounds}
    for diode in program.diodes:
        before = diode.anode in sources or can_arrive(program, diode.anode, live)
        behind = diode.cathode in grounds or can_arrive(program, diode.cathode, grounded)
        if not before and not behind:
            turned = diode.cathode in sources or can_arrive(program, diode.cathode, live)
            message = BackwardDiode(diode.anode, diode.cathode, turned)
            yield Finding(Diagnostic(message, diode.span), (diode.anode, diode.cathode))
