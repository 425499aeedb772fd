"""Finds terms that never change what their line leads to, in any situation that can be reached."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program
from logiccheck.study.following import quoted

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class IdleTerm(FindingMessage):
    """A lock was built in, and the thing comes on all the same.

    What it means
    Whatever this term says, true or false, all that its line leads to stays the same, in every situation that can be
    reached. It looks like a condition and is none: where it could decide, something else has decided already.

    Write
    output fan "Fan" when (key_on or cranking) and not door_open

    Instead of
    output fan "Fan" when key_on or cranking and not door_open

    When to accept it
    Where it stands there as a second line of defence, should a wire or a switch fail.
    """

    word: str
    terms: tuple[str, ...]

    code, name, title = "W120", "idle-term", "A term that never changes anything"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"In the line of `{self.word}`, it never matters what these say: {quoted(self.terms)}."

    def hint(self) -> str:
        return "Look for brackets, an `or` for an `and`, or a condition that the others rule out; else take it out."

    def second(self) -> str:
        return "nor does this"


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a line."""
    from logiccheck.explain.surveyed.idle import idle

    for each in idle(survey):
        other = each.terms[1] if len(each.terms) > 1 else None
        message = IdleTerm(each.line, each.names)
        yield Finding(Diagnostic(message, each.terms[0], other), (each.line, *each.names))
