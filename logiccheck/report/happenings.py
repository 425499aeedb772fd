"""A story in one line: what hands do and which timers end, moment by moment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from logiccheck.lang.program import Program
from logiccheck.model.play import first_world
from logiccheck.model.reaction import Values, World
from logiccheck.model.story import Story
from logiccheck.report import words_ways as words
from logiccheck.report.due import ends
from logiccheck.report.durations import said
from logiccheck.report.values import things

NOTHING_ELSE: Mapping[str, tuple[str, str, str]] = {}


def happenings(
    program: Program, played: Program, story: Story, otherwise: Mapping[str, tuple[str, str, str]] = NOTHING_ELSE
) -> Iterator[str]:
    """What happens in a story of `program`, as short as can be; `played` has the timers that count in it.

    `otherwise`: of some switches with two positions what is said where one is in the second at first, goes to it, and
    goes back.
    """
    read = {thing.name: thing.read for thing in things(program)}

    def value(name: str, world: World) -> str:
        return read[name](Values(world, frozenset()))

    def begins(name: str, world: World) -> str:
        return otherwise[name][0] if name in otherwise else words.begins(name, value(name, world))

    def goes(name: str, world: World) -> str:
        if name in otherwise:
            return otherwise[name][1 if world[name] else 2]
        return words.goes(name, value(name, world))

    usual = first_world(program, {}, program.at_first)
    first = dict(story.steps[0].world)
    begin = [begins(name, first) for name, each in first.items() if each != usual[name]]
    if begin or len(story.steps) == 1:
        yield words.at_first(begin)
    for before, now in pairwise(story.steps):
        was, world = dict(before.world), dict(now.world)
        happens = [goes(name, world) for name, each in world.items() if each != was[name]]
        yield words.step(said(now.time), [*happens, *(ends(played, key) for key in now.due)])
