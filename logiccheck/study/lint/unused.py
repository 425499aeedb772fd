"""Finds senses, rules and relays that nothing depends on: neither box nor copper, no requirement, no scenario."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Guard, Program, Relay, Rule
from logiccheck.study.uses import in_box, in_copper, in_requirements, in_scenarios


@frozen
class Unused(FindingMessage):
    """A switch was wired, a timer set, and nothing that the vehicle does changes.

    What it means
    No rule, output, wire, coil, requirement or scenario reads the name of this sense, rule or relay. Often a name was
    mistyped somewhere else, or the output it was meant for was forgotten. A timer that nothing reads protects nothing.

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
    """One finding for each such name, in the order: relays, senses, rules."""
    used = in_box(program) | in_copper(program) | in_requirements(program) | in_scenarios(program)
    box = program.box
    senses = box.senses if box else ()
    rules = [rule for rule in box.rules if isinstance(rule, Rule)] if box else []
    for item in (*program.relays, *senses, *rules):
        if item.name not in used:
            what = "relay" if isinstance(item, Relay) else "rule" if isinstance(item, Rule) else "sense"
            yield Finding(Diagnostic(Unused(what, item.name), item.span), (item.name,))
