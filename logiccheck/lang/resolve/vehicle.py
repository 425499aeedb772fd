"""The whole vehicle: all blocks of all its files become one resolved program, and all mistakes on the way are told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.place import source_text
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.structure import TwoControllers
from logiccheck.lang.resolve.accepted import accepted
from logiccheck.lang.resolve.bounds import with_bounds
from logiccheck.lang.resolve.complete import check_complete
from logiccheck.lang.resolve.controller import controller, filters, gauges
from logiccheck.lang.resolve.declare import declare
from logiccheck.lang.resolve.electrics import electrics
from logiccheck.lang.resolve.given import TextOf, given, without_jumps
from logiccheck.lang.resolve.harness import harness, load_wires
from logiccheck.lang.resolve.requirements import requirements, waived
from logiccheck.lang.resolve.scenarios import scenario
from logiccheck.lang.resolve.scope import Scope
from logiccheck.lang.resolve.world import at_first, constants, numbers, switches
from logiccheck.lang.walk import timer_windows

T = TypeVar("T")


def resolve_vehicle(files: Sequence[w.File], label: str, found: list[Diagnostic]) -> p.Program:
    """The program of the files; what has a mistake, added to `found`, is left out of it."""
    scope = declare(files, found)
    told = [(item, _text_of(file)) for file in files for block in file.blocks for item in block.items]
    items = [item for item, _ in told]
    for name in (name for file in files for name in file.idle):
        scope.find(name)
    constants(scope, _only(items, w.Constant))
    world_switches = switches(scope, _only(items, w.Switch))
    world_numbers = numbers(scope, _only(items, w.Number))
    gauges(scope, items)
    filters(scope, items)
    load_wires(scope, items)
    facts = at_first(scope, _only(items, w.First))
    copper = harness(scope, items)
    box = controller(scope, _controller(scope, files), tuple(items))
    assumed = given(scope, told)
    program = p.Program(
        label=label,
        switches=world_switches,
        numbers=without_jumps(world_numbers, assumed.smooth),
        at_first=facts,
        sources=tuple(copper.sources),
        grounds=tuple(copper.grounds),
        wires=tuple(copper.wires),
        contacts=tuple(copper.contacts),
        diodes=tuple(copper.diodes),
        relays=tuple(copper.relays),
        loads=tuple(copper.loads),
        box=box,
        givens=assumed.givens,
        requirements=requirements(scope, told),
        scenarios=(),
        waived=tuple(waived(files)),
        accepted=accepted(scope, _only(items, w.Accepted)),
        electrics=electrics(scope, files, told),
    )
    whole = with_bounds(_with_scenarios(scope, program, files))
    if not found:
        check_complete(files, whole)
    return whole


def _only(items: list[w.Item], kind: type[T]) -> list[T]:
    return [item for item in items if isinstance(item, kind)]


def _text_of(file: w.File) -> TextOf:
    """What was written in a span of the file."""
    return lambda span: source_text(span, file.text)


def _blocks(files: Sequence[w.File]) -> Iterator[w.Block]:
    for file in files:
        yield from file.blocks


def _controller(scope: Scope, files: Sequence[w.File]) -> w.Controller | None:
    """The header of the one controller."""
    headers = [block.header for block in _blocks(files) if isinstance(block.header, w.Controller)]
    for header in headers[1:]:
        scope.tell(TwoControllers(), header.span, headers[0].span)
    return headers[0] if headers else None


def _with_scenarios(scope: Scope, program: p.Program, files: Sequence[w.File]) -> p.Program:
    timers = timer_windows(program)
    scenarios = tuple(
        scenario(scope, block.header, block.items, timers, _text_of(file))
        for file in files
        for block in file.blocks
        if isinstance(block.header, w.ScenarioHead)
    )
    return replace(program, scenarios=scenarios)
