"""Finds names that nothing depends on: neither box nor copper, no requirement, no scenario, nothing given."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Number, Program, Relay, Rule, Source, Switch, Wire
from logiccheck.study.uses import (
    connected,
    in_box,
    in_copper,
    in_electrics,
    in_given,
    in_requirements,
    in_scenarios,
)

_Outside: TypeAlias = Switch | Number | Source | Wire


@frozen
class Unused(FindingMessage):
    """A switch was wired, a timer set, and nothing that the vehicle does changes.

    What it means
    No rule, output, wire, coil, requirement or scenario, and nothing given, reads the name of this sense, rule or
    relay, other than it itself; or of this switch, number, source or wire, and nothing is connected to it. Often a name
    was mistyped somewhere else, or the output it was meant for was forgotten. A timer that nothing reads protects
    nothing.

    Write
    sense is_open from door_wire live
    output buzzer "Door buzzer" when key_on and is_open

    Instead of
    sense is_open from door_wire live
    output buzzer "Door buzzer" when key_on

    When to accept it
    Where something is wired already, and the rule for it comes later.
    """

    what: str
    word: str

    code, name, title = "W101", "unused-name", "Nothing depends on it"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"Nothing depends on the {self.what} `{self.word}`."

    def hint(self) -> str:
        return "Use it where it was meant to be used, or take it out."


def find(program: Program) -> Iterator[Finding]:
    """One finding for each such name: relays, senses, rules, then what is of the world or of copper."""
    used = in_box(program) | in_copper(program) | in_given(program) | in_requirements(program)
    used |= in_scenarios(program) | in_electrics(program)
    box = program.box
    senses = box.senses if box else ()
    rules = [rule for rule in box.rules if isinstance(rule, Rule)] if box else []
    for item in (*program.relays, *senses, *rules):
        if item.name not in used:
            what = "relay" if isinstance(item, Relay) else "rule" if isinstance(item, Rule) else "sense"
            yield Finding(Diagnostic(Unused(what, item.name), item.span), (item.name,))
    used |= connected(program)
    kinds: dict[type[_Outside], str] = {Switch: "switch", Number: "number", Source: "source", Wire: "wire"}
    outside: list[_Outside] = [*program.switches, *program.numbers, *program.sources, *program.wires]
    for thing in outside:
        if thing.name not in used:
            yield Finding(Diagnostic(Unused(kinds[type(thing)], thing.name), thing.span), (thing.name,))
