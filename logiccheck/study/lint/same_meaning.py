"""Finds rules, and senses, that always say the same as another one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Rule
from logiccheck.study.following import because, quoted

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class SameMeaning(FindingMessage):
    """What should tell two cases apart treats both alike.

    What it means
    These rules, or senses, have the same value in every situation that can be reached, once all has settled. Either one
    of them is not what it was meant to be, such as a sense on its neighbour's wire, or one of them is enough.

    Write
    rule driving  = key_on and not cranking
    rule starting = cranking
    output radio "Radio" when driving and door_open
    output buzzer "Buzzer" when starting and not door_open

    Instead of
    rule driving  = key_on or cranking
    rule starting = not (not key_on and not cranking)
    output radio "Radio" when driving and door_open
    output buzzer "Buzzer" when starting and not door_open

    When to accept it
    Where the two are to part later, when what tells them apart is wired.
    """

    what: str
    words: tuple[str, ...]
    never: tuple[str, ...]

    code, name, title = "W126", "same-meaning", "Two that always say the same"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"These {self.what} always say the same: {quoted(self.words)}.{because(self.never, ())}"

    def hint(self) -> str:
        if self.what == "senses":
            return "Look at the wires: is one of them on the wire of the other?"
        return "Look at what should tell them apart; if nothing should, keep one of them."

    def second(self) -> str:
        return "and this"


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding a group."""
    from logiccheck.explain.surveyed.alike import alike, joined, ruled_out

    for group in (each for each in alike(survey) if not joined(program, each)):
        words = tuple(each.name for each in group)
        what = "rules" if isinstance(group[0], Rule) else "senses"
        never = tuple(name for name, first in ruled_out(survey).items() if first == words[0])
        message = SameMeaning(what, words, never)
        yield Finding(Diagnostic(message, group[0].span, group[1].span), (*words, *never))
