"""Finds fuses that are rated for less than what their own load draws all the time."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.units import show_number
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Load, Output, Program


@frozen
class SmallFuse(FindingMessage):
    """The pump runs for a while and then the fuse is blown, every time.

    What it means
    By the two numbers of the file, the load draws more than its fuse is rated for. Nothing else is compared here:
    neither inrush nor wire.

    Write
    output pump when key_on
        load 8 A, fuse 15 A

    Instead of
    output pump when key_on
        load 8 A, fuse 5 A

    When to accept it
    Where the load is on for so short a time that the fuse stands it.
    """

    word: str
    current: str
    fuse: str

    code, name, title = "W116", "small-fuse", "A fuse below its load"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        return f"`{self.word}` draws {self.current} A, and its fuse is rated {self.fuse} A."

    def hint(self) -> str:
        return "Is one of the two numbers mistyped?"


def find(program: Program) -> Iterator[Finding]:
    """One for each load or output that gives both numbers."""
    things: list[Load | Output] = [*program.loads, *(program.box.outputs if program.box is not None else ())]
    for each in things:
        current, fuse = each.electrical.current, each.electrical.fuse
        if current is not None and fuse is not None and fuse < current:
            message = SmallFuse(each.name, _told(current), _told(fuse))
            yield Finding(Diagnostic(message, each.span), (each.name,))


def _told(amperes: Fraction) -> str:
    return show_number(amperes)
