"""Finds labels that two things of one kind share: sentences and sheets cannot tell them apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Protocol

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Rule


class _Labelled(Protocol):
    @property
    def name(self) -> str: ...

    @property
    def label(self) -> str: ...

    @property
    def span(self) -> Span: ...


@frozen
class SameLabel(FindingMessage):
    """The answer says that the left lamp is on, and there are two of them.

    What it means
    Two things of one kind have the same label, so no sentence, table or sheet that uses labels tells them apart.

    Write
    output left  "Left lamp"  when key_on
    output right "Right lamp" when door_open

    Instead of
    output left  "Left lamp" when key_on
    output right "Left lamp" when door_open

    When to accept it
    Where they are one thing with two feeds.
    """

    what: str
    word: str
    other: str
    label: str

    code, name, title = "W115", "same-label", "One label for two things"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f'The {self.what} `{self.word}` has the label of `{self.other}`: "{self.label}".'

    def second(self) -> str:
        return "The other one"

    def hint(self) -> str:
        return "Give each a label of its own."


def find(program: Program) -> Iterator[Finding]:
    """One for each thing whose label an earlier one of its kind has."""
    for what, things in _kinds(program):
        first: dict[str, _Labelled] = {}
        for each in things:
            if each.label in ("", each.name):
                continue
            earlier = first.setdefault(each.label.casefold(), each)
            if earlier is not each:
                message = SameLabel(what, each.name, earlier.name, each.label)
                yield Finding(Diagnostic(message, each.span, earlier.span), (each.name, earlier.name))


def _kinds(program: Program) -> Iterator[tuple[str, Sequence[_Labelled]]]:
    yield "switch", program.switches
    yield "number", program.numbers
    yield "source", program.sources
    yield "wire", program.wires
    yield "relay", program.relays
    yield "load", program.loads
    if program.box is not None:
        yield "sense", program.box.senses
        yield "rule", [each for each in program.box.rules if isinstance(each, Rule)]
        yield "output", program.box.outputs
