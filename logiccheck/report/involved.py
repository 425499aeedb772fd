"""Which signals can matter to an expression: everything reachable from it by names, through box and copper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from logiccheck.lang.program import Expr, NumberSense, Output, Program
from logiccheck.lang.walk import references

POWERED = "powered"


def involved(program: Program, names: Iterable[str]) -> frozenset[str]:
    """The names themselves and all that can reach them; through a diode only what can arrive."""
    reads = _reads(program)
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting.extend(reads.get(name, ()))
    return frozenset(found)


def named(exprs: Iterable[Expr]) -> tuple[str, ...]:
    """The names that the expressions read, each once, in the order written."""
    return tuple(dict.fromkeys(leaf.name for expr in exprs for leaf in references(expr)))


def _reads(program: Program) -> Mapping[str, set[str]]:
    """What each name is made from in one reaction or the one before."""
    reads: dict[str, set[str]] = {}
    for name, others in (*_copper(program), *_box(program)):
        reads.setdefault(name, set()).update(others)
    return reads


def _copper(program: Program) -> Iterator[tuple[str, tuple[str, ...]]]:
    for source in program.sources:
        yield source.name, named([source.condition])
    for ground in program.grounds:
        yield ground.name, named([ground.condition])
    ends = {*(source.name for source in program.sources), *(ground.name for ground in program.grounds)}
    for contact in program.contacts:
        for here, there in ((contact.left, contact.right), (contact.right, contact.left)):
            if here not in ends:  # what arrives at a source or a ground goes no further
                yield here, (there, *named([contact.condition]))
    for diode in program.diodes:
        yield diode.cathode, (diode.anode,)
    for relay in program.relays:
        yield relay.name, named([relay.coil] if relay.supply is None else [relay.coil, relay.supply])
    for load in program.loads:
        yield load.name, (load.wire,)


def _box(program: Program) -> Iterator[tuple[str, tuple[str, ...]]]:
    box = program.box
    if box is None:
        return
    yield POWERED, (box.feed,)
    for sense in box.senses:
        yield sense.name, (POWERED, sense.number if isinstance(sense, NumberSense) else sense.wire)
    for rule in box.rules:
        if isinstance(rule, Output):
            yield rule.name, (POWERED, *named([rule.command]), *((rule.fed_by,) if rule.fed_by else ()))
            if rule.feeds:
                yield rule.feeds, (rule.name,)
        else:
            yield rule.name, (POWERED, *named([rule.expr]))
