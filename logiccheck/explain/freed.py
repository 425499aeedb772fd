"""A vehicle whose box does as it likes: every rule and output is on or off at will; the copper is as it is."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.lang.program import Output, Position, Program, Rule, Switch
from logiccheck.lang.rebuild import with_condition

ON = frozenset({1})


def freed(program: Program) -> Program:
    """The program with a contact of the world in place of what each rule says, and of each output's command.

    While the box has no power all of them are off even so. Nothing is required of it, and it has no scenarios.
    """
    box = program.box
    if box is None:
        return replace(program, requirements=(), scenarios=())
    rules = tuple(_freed(rule) for rule in box.rules)
    switches = tuple(Switch(_named(rule), "", ("off", "on"), False, True) for rule in box.rules)
    return replace(
        program,
        switches=(*program.switches, *switches),
        box=replace(box, rules=rules),
        requirements=(),
        scenarios=(),
    )


def _named(rule: Rule | Output) -> str:
    return f"{rule.name} at will"  # no name of the user has a blank


def _freed(rule: Rule | Output) -> Rule | Output:
    at_will = Position(_named(rule), ON)
    return with_condition(rule, at_will)
