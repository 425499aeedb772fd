"""Finds numbers that are waited for to be exactly some value, which one that only passes by hardly ever is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Compare, Guard, NumberSense, Op, Program
from logiccheck.lang.walk import program_expressions, references

EXACT = (Op.EQ, Op.NE)


@frozen
class ExactNumber(FindingMessage):
    """The gauge passes the value, and nothing happens.

    What it means
    A number is compared with one value in the middle of its range. It passes through that value in no time; a sensor
    that works in steps may never show it at all.

    Write
    output light "Shift light" when revs above 6000 rpm until below 5900 rpm

    Instead of
    output light "Shift light" when revs is 6000 rpm

    When to accept it
    Where the number only ever takes a few values, such as the position of a selector.
    """

    word: str

    code, name, title = "W109", "exact-number", "Waiting for one exact value"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"`{self.word}` is compared with one exact value in the middle of its range."

    def hint(self) -> str:
        return "Write `above`, `below`, `at least` or `at most`."


def find(program: Program) -> Iterator[Finding]:
    """One for each place in rules, outputs, copper and requirements; what is given may say what it likes."""
    senses = program.box.senses if program.box is not None else ()
    number_of = {each.name: each.number for each in senses if isinstance(each, NumberSense)}
    ranges = {number.name: (number.low, number.high) for number in program.numbers}
    for expr in program_expressions(replace(program, at_first=(), givens=())):
        for leaf in references(expr):
            if not isinstance(leaf, Compare) or leaf.op not in EXACT:
                continue
            if leaf.bound not in ranges[number_of[leaf.name] if leaf.sense else leaf.name]:
                yield Finding(Diagnostic(ExactNumber(leaf.name), leaf.span), (leaf.name,))
