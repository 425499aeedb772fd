"""The part of a program that can matter to a question, as a program of its own."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.lang.matters import Item, Matter
from logiccheck.lang.program import Box, Output, Program, Requirement, SignalKind


def cut(program: Program, matter: Matter, requirement: Requirement) -> Program:
    """The program without the rules, senses, outputs, relays and lines of what is given that do not matter.

    Copper stays whole, save what relays and outputs that are gone would do to it: their contacts are gone, too.
    """
    items = matter.items
    relays = tuple(r for r in program.relays if (SignalKind.RELAY.value, r.name) in items)
    return replace(
        program,
        at_first=tuple(fact for i, fact in enumerate(program.at_first) if i in matter.at_first),
        sources=tuple(s for s in program.sources if (SignalKind.SOURCE.value, s.name) in items),
        grounds=tuple(g for g in program.grounds if (SignalKind.GROUND.value, g.name) in items),
        contacts=tuple(c for i, c in enumerate(program.contacts) if i in matter.contacts),
        relays=relays,
        loads=(),
        box=_cut_box(program.box, items) if program.box is not None else None,
        givens=tuple(given for i, given in enumerate(program.givens) if i in matter.givens),
        requirements=(requirement,),
        scenarios=(),
    )


def _cut_box(box: Box, items: frozenset[Item]) -> Box | None:
    if (SignalKind.POWERED.value, "powered") not in items:
        return None
    ruled = (SignalKind.RULE.value, SignalKind.COMMAND.value, SignalKind.OUTPUT.value)
    kept = (rule for rule in box.rules if any((kind, rule.name) in items for kind in ruled))
    return replace(
        box,
        senses=tuple(s for s in box.senses if (SignalKind.SENSE.value, s.name) in items),
        rules=tuple(_cut_output(rule, items) if isinstance(rule, Output) else rule for rule in kept),
    )


def _cut_output(output: Output, items: frozenset[Item]) -> Output:
    """An output of which only the command matters is fed by nothing and feeds nothing."""
    whole = (SignalKind.OUTPUT.value, output.name) in items
    return output if whole else replace(output, fed_by=None, feeds=None)
