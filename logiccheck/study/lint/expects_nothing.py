"""Finds scenarios that expect nothing: whatever the vehicle does in them, nothing is ever noticed."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program


@frozen
class ExpectsNothing(FindingMessage):
    """The drive was written down, a rule was changed since, and nobody was told that it goes otherwise now.

    What it means
    A scenario without any `expect` is never played by a check, and can never fail.

    Write
    output lamp when key_on
    scenario leaving "Leaving"
        at first key is run
        at 1 s   expect lamp
        at 2 s   key is off
        at 3 s   expect not lamp

    Instead of
    output lamp when key_on
    scenario leaving "Leaving"
        at first key is run
        at 2 s   key is off
        until 3 s

    When to accept it
    Where it is only there to be looked at with `play`.
    """

    word: str

    code, name, title = "W113", "expects-nothing", "A scenario that expects nothing"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"The scenario `{self.word}` expects nothing."

    def hint(self) -> str:
        return "Say with `expect` what has to be so at some of its times; `play --save` writes down what is so now."


def find(program: Program) -> Iterator[Finding]:
    """One for each, in the order written."""
    for each in program.scenarios:
        if not each.expectations:
            yield Finding(Diagnostic(ExpectsNothing(each.name), each.span), (each.name,))
