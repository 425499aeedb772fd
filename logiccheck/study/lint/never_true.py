"""Finds senses and rules that are never true while the box has power."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Rule, WireSense
from logiccheck.study.following import because

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class NeverTrue(FindingMessage):
    """A switch is wired, and the box never takes notice of it.

    What it means
    In no situation that can be reached is this sense or rule true, not even for an instant. A sense may hang on a wire
    that is dead in the very position in which it should be live. In a rule conditions may exclude each other.

    Write
    wire off_wire from plus when key is off
    sense parked from off_wire live
    output lamp when parked

    Instead of
    wire off_wire from key_wire when key is off
    sense parked from off_wire live
    output lamp when parked

    When to accept it
    Where the wire is laid later, and nothing dangerous waits for it until then.
    """

    what: str
    word: str
    never: tuple[str, ...]
    always: tuple[str, ...]

    code, name, title = "W124", "never-true", "It is never true"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The {self.what} `{self.word}` is never true.{because(self.never, self.always)}"

    def hint(self) -> str:
        if self.what == "sense":
            return "Look at what can make its wire live, and what can put it to ground: does it read the right one?"
        return "Look at its conditions: all that has to be so for it can never be so at once."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a cause, with all that follows from it; none where two that always say the same are the cause."""
    from logiccheck.explain.surveyed.alike import ruled_out
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        told = each.name in ruled_out(survey)
        if each.change is Change.NEVER and not told and isinstance(each.item, Rule | WireSense):
            what = "rule" if isinstance(each.item, Rule) else "sense"
            message = NeverTrue(what, each.name, each.never, each.always)
            yield Finding(Diagnostic(message, each.span), each.names)
