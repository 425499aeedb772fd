"""Finds outputs that no requirement mentions: whatever they do, a green check says nothing about them."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program
from logiccheck.study.uses import in_requirements, names


@frozen
class Unasked(FindingMessage):
    """The check is green, and then a heater is found on in the parked vehicle.

    What it means
    The check proves what the requirements ask. About these outputs, and the wires they feed, they ask nothing: an
    output that nobody asks about may be always on, never on, or on at the wrong time.

    Write
    output heater "Rear window heater" when key_on
    requirements
        damage spares_battery never heater while key is off for longer than 10 min
        damage spares_bulbs   never lamp while key is off for longer than 10 min

    Instead of
    output heater "Rear window heater" when key_on
    requirements
        damage spares_bulbs never lamp while key is off for longer than 10 min

    When to accept it
    Where it really does not matter what the output does.
    """

    words: tuple[str, ...]

    code, name, title = "W102", "unasked-output", "No requirement mentions it"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"No requirement mentions these outputs: {', '.join(f'`{word}`' for word in self.words)}."

    def hint(self) -> str:
        return "For each, ask when it must never be on, or what must make it come on."


def find(program: Program) -> Iterator[Finding]:
    """One finding for all such outputs together, at the first of them; none where nothing at all is required."""
    if program.box is None or not program.requirements:
        return
    asked = in_requirements(program)
    asked |= names(relay.coil for relay in program.relays if relay.name in asked)  # its coil is asked about, too
    found = [output for output in program.box.outputs if output.name not in asked and output.feeds not in asked]
    if found:
        words = tuple(output.name for output in found)
        yield Finding(Diagnostic(Unasked(words), found[0].span), words)
