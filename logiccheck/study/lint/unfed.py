"""Finds wires that are relied on to be live, or grounded, and that nothing can ever make so."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.program import Expr, Guard, Program, Signal, SignalKind, WireSense


@frozen
class Unfed(FindingMessage):
    """The switch is moved, or the feed switched on, and nothing happens.

    What it means
    A sense, a coil, a load, an output or the box itself waits for a wire to become live (or grounded), and no source
    (or ground) leads there by any contact, diode or output. Most often a switch puts its wire to ground and is sensed
    live, or a connection was forgotten.

    Write
    wire hatch_wire to ground when door is open
    sense hatch_open from hatch_wire grounded
    output lamp when hatch_open

    Instead of
    wire hatch_wire to ground when door is open
    sense hatch_open from hatch_wire live
    output lamp when hatch_open

    When to accept it
    Where the wire is there already, and what will feed it comes later.
    """

    what: str
    word: str
    wire: str
    state: str
    instead: str  # the other state, where the wire can be so; else empty
    comes_of_it: str

    code, name, title = "W103", "unfed-wire", "Nothing leads to a wire that is relied on"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"Nothing can ever make `{self.wire}` {self.state}, so the {self.what} `{self.word}` {self.comes_of_it}."

    def hint(self) -> str:
        if self.instead:
            return f"It can only be {self.instead}: is `{self.word}` meant to read it {self.instead}?"
        return f"Connect `{self.wire}` with what feeds it, or take it out."


def find(program: Program) -> Iterator[Finding]:
    """One for each thing that relies on such a wire, in the order of the vehicle."""
    wires = {wire.name for wire in program.wires}
    for what, word, wire, kind, comes_of_it, span in _relied_on(program):
        if wire not in wires or can_arrive(program, wire, kind):
            continue
        other = SignalKind.GROUNDED if kind is SignalKind.LIVE else SignalKind.LIVE
        instead = other.value if what == "sense" and can_arrive(program, wire, other) else ""
        message = Unfed(what, word, wire, kind.value, instead, comes_of_it)
        yield Finding(Diagnostic(message, span), (word, wire))


def _relied_on(program: Program) -> Iterator[tuple[str, str, str, SignalKind, str, Span]]:
    """What relies on a wire: what it is, its name, the wire, how that has to be, what comes of it else, and where."""
    live = SignalKind.LIVE
    for relay in program.relays:
        for expr in (relay.coil, relay.supply):
            if (wire := _wire(expr)) is not None:
                yield "relay", relay.name, wire, live, "never pulls in", relay.span
    for load in program.loads:
        yield "load", load.name, load.wire, live, "is never on", load.span
    box = program.box
    if box is None:
        return
    yield "controller", box.label, box.feed, live, "never has power", box.span
    for sense in box.senses:
        if isinstance(sense, WireSense):
            kind = SignalKind.GROUNDED if sense.grounded else live
            yield "sense", sense.name, sense.wire, kind, "is always off", sense.span
    for output in box.outputs:
        if output.fed_by is not None:
            yield "output", output.name, output.fed_by, live, "is never on", output.span


def _wire(expr: Expr | None) -> str | None:
    """The wire, where nothing but a live wire is meant."""
    return expr.name if isinstance(expr, Signal) and expr.kind is SignalKind.LIVE else None
