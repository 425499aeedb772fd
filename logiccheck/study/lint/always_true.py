"""Finds senses and rules that are true whenever the box has power."""

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
class AlwaysTrue(FindingMessage):
    """Something happens as if a switch were always on, or a lock never locks.

    What it means
    Whenever the box has power this rule is true, in every situation that can be reached; or the wire of this sense is
    always as the sense reads it. What it is asked for makes no difference. Often an `or` stands for an `and`. A sense
    whose wire is always so while the box has power, because it is what wakes the box, is not meant.

    Write
    rule leaving = key_on and not cranking
    output radio "Radio" when leaving and door_open

    Instead of
    rule leaving = key_on or not cranking
    output radio "Radio" when leaving and door_open

    When to accept it
    Where the rule keeps a place for conditions that come later.
    """

    what: str
    word: str
    never: tuple[str, ...]
    always: tuple[str, ...]

    code, name, title = "W125", "always-true", "It is always true"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        what = f"The {self.what} `{self.word}` is always true while the box has power."
        return what + because(self.never, self.always)

    def hint(self) -> str:
        if self.what == "sense":
            return "Its wire is always so: sense it where it can be otherwise, or leave it out."
        return "Look at which of its conditions should have made it false."


def find(_: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a cause, with all that follows from it."""
    from logiccheck.explain.surveyed.steady import Change, steady

    for each in steady(survey):
        if each.change is Change.ALWAYS and isinstance(each.item, Rule | WireSense):
            what = "rule" if isinstance(each.item, Rule) else "sense"
            message = AlwaysTrue(what, each.name, each.never, each.always)
            yield Finding(Diagnostic(message, each.span), each.names)
