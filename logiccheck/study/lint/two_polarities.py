"""Finds wires that one sense reads live and another grounded: when the wire hangs free, both are off."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.program import Guard, Program, SignalKind, WireSense


@frozen
class TwoPolarities(FindingMessage):
    """A switch in its middle position, or a broken wire, is taken for neither: what either sense guards against passes.

    What it means
    One sense reads the wire live, another reads it grounded. A wire can also be neither, as it is while every contact
    on it is open or when it breaks; then both senses are off. Where that is not looked at, it is forgotten.

    Write
    wire seat_wire from plus when door is open
    sense open_door from seat_wire live
    output lamp when open_door
    output buzzer when not open_door

    Instead of
    wire seat_wire from plus when door is open, to ground when key is run
    sense open_door from seat_wire live
    sense shut_door from seat_wire grounded
    output lamp when open_door
    output buzzer when shut_door

    When to accept it
    Where the wire is meant to say three things, and a rule looks at the third.
    """

    wire: str
    live: str
    grounded: str

    code, name, title = "W114", "two-polarities", "One wire sensed live and grounded"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return (
            f"`{self.live}` reads `{self.wire}` live and `{self.grounded}` reads it grounded: "
            "while it hangs free, both are off."
        )

    def second(self) -> str:
        return "The other sense"

    def hint(self) -> str:
        return f"Say in a rule what is meant by `not {self.live} and not {self.grounded}`, or sense it one way."


def find(program: Program) -> Iterator[Finding]:
    """One for each wire that can be both, in the order of the senses."""
    senses = [each for each in (program.box.senses if program.box is not None else ()) if isinstance(each, WireSense)]
    grounded = {each.wire: each for each in reversed(senses) if each.grounded}
    told: set[str] = set()
    for sense in senses:
        other = grounded.get(sense.wire)
        if sense.grounded or other is None or sense.wire in told:
            continue
        if all(can_arrive(program, sense.wire, kind) for kind in (SignalKind.LIVE, SignalKind.GROUNDED)):
            told.add(sense.wire)
            message = TwoPolarities(sense.wire, sense.name, other.name)
            yield Finding(Diagnostic(message, sense.span, other.span), (sense.name, other.name, sense.wire))
