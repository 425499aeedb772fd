"""Finds delay relays whose time is given without a tolerance, which no relay keeps."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Timer
from logiccheck.lang.walk import memory


@frozen
class ExactRelayTime(FindingMessage):
    """The check is green, and on a cold morning the relay lets go before the box is done.

    What it means
    A delay relay lasts a little more or less each time. Given one exact time, everything is proved for that time alone.

    Write
    relay hold coil off_delay(key_wire, 4 min +- 10 %) supply plus
    wire hold_wire from plus when hold
    sense held from hold_wire live
    output lamp when held

    Instead of
    relay hold coil off_delay(key_wire, 4 min) supply plus
    wire hold_wire from plus when hold
    sense held from hold_wire live
    output lamp when held

    When to accept it
    Where a box with a clock of its own does what is written as a relay.
    """

    word: str

    code, name, title = "W117", "exact-relay-time", "A delay relay without a tolerance"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The delay relay `{self.word}` is taken to keep its time exactly."

    def hint(self) -> str:
        return "Give the tolerance that stands on the relay or in its data, such as `+- 10 %`."


def find(program: Program) -> Iterator[Finding]:
    """One for each relay, at its first such timer."""
    for relay in program.relays:
        exact = [node for node in memory(relay.coil) if isinstance(node, Timer) and node.window.lo == node.window.hi]
        if exact:
            yield Finding(Diagnostic(ExactRelayTime(relay.name), exact[0].span), (relay.name,))
