"""Finds requirements that ask the same as an earlier one."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Requirement
from logiccheck.lang.walk import form_expressions, references
from logiccheck.study.alike import Shape, form_shape


@frozen
class RepeatedRequirement(FindingMessage):
    """Two lines on the sheet for the bench are green, and only one thing was tried.

    What it means
    Two requirements say the same, up to the order of what stands in them. Most often one was copied, and what was to be
    changed in it was not.

    Write
    output horn when door_open
    output lamp when key_on
    requirements
        function lamp_with_key possible lamp and horn
        danger   lamp_off      never lamp while key is off
        danger   horn_off      never horn while door is closed

    Instead of
    output horn when door_open
    output lamp when key_on
    requirements
        function lamp_with_key possible lamp and horn
        danger   lamp_off      never lamp while key is off
        danger   horn_off      never lamp while key is off

    When to accept it
    Where the same has to stand under two names, such as one of a checklist and one of your own.
    """

    word: str
    earlier: str

    code, name, title = "W110", "repeated-requirement", "A requirement that repeats another"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"`{self.word}` asks the same as `{self.earlier}`."

    def second(self) -> str:
        return "The earlier one"

    def hint(self) -> str:
        return "Change it to what was meant, or take it out."


def find(program: Program) -> Iterator[Finding]:
    """One for each that says what one before it says; checklists among themselves and with others do not count."""
    first: dict[Shape, Requirement] = {}
    for each in program.requirements:
        earlier = first.setdefault(form_shape(each.form), each)
        if earlier is not each and earlier.span.file == each.span.file:
            names = dict.fromkeys(leaf.name for expr in form_expressions(each.form) for leaf in references(expr))
            message = RepeatedRequirement(each.name, earlier.name)
            yield Finding(Diagnostic(message, each.span, earlier.span), (each.name, earlier.name, *names))
