"""The part of a vehicle that can matter to a signal: a vehicle of its own, which reacts the same and sooner.

What is left out is named by nothing that is kept (`lang/matters.py`), so it cannot turn the signal, nor break what is
given about what is kept. Whether all of the vehicle settles, the part cannot tell.
"""

from __future__ import annotations

from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.lang.matters import WORLD, Item, Matter, Names, named
from logiccheck.lang.program import Box, Expr, Program, SignalKind


@frozen
class Part:
    """`program` keeps what is given about the part, but no facts of time 0, no requirements, no scenarios.

    `direct` are the things of the world on which the signal itself depends; the others that are kept matter only
    because something given ties them to these.
    """

    program: Program
    direct: frozenset[str]


def part_of(program: Program, asked: Expr) -> Part:
    """The part of the program that can matter to this expression."""
    names = Names(program)
    matter = names.matter([asked])
    return Part(_cut(program, matter), names.world([asked]))


def _cut(program: Program, matter: Matter) -> Program:
    world, items = matter.names(WORLD), matter.items
    return replace(
        program,
        switches=tuple(each for each in program.switches if each.name in world),
        numbers=tuple(each for each in program.numbers if each.name in world),
        at_first=(),
        sources=tuple(each for each in program.sources if (SignalKind.SOURCE.value, each.name) in items),
        grounds=tuple(each for each in program.grounds if (SignalKind.GROUND.value, each.name) in items),
        contacts=tuple(each for each in program.contacts if named([each.condition]) <= items),
        relays=tuple(each for each in program.relays if (SignalKind.RELAY.value, each.name) in items),
        loads=(),
        box=_cut_box(program.box, items) if program.box else None,
        givens=tuple(given for number, given in enumerate(program.givens) if number in matter.givens),
        requirements=(),
        scenarios=(),
    )


def _cut_box(box: Box, items: frozenset[Item]) -> Box | None:
    if (SignalKind.POWERED.value, "powered") not in items:
        return None
    names = {name for kind, name in items if kind != WORLD}
    senses = tuple(each for each in box.senses if each.name in names)
    return replace(box, senses=senses, rules=tuple(each for each in box.rules if each.name in names))
