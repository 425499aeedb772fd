"""No story with as few moments and changes is on a coarser grid, or earlier on the same one: all others are played."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise, product

from logiccheck.engine.replay import StoryRefused, confirm, played
from logiccheck.lang.program import Possible, Switch
from logiccheck.lang.walk import form_expressions, given_expressions, memory
from logiccheck.model.circuit.worldcode import example_value
from logiccheck.model.judge import violated, witnessed
from logiccheck.model.story import Step, Story
from tests.engine.asking import Found, random_stories

UNITS = [3_600_000_000, 60_000_000, 1_000_000, 100_000]
MOST = 4000  # other stories that are played against one

Time = int
World = tuple[int | Fraction, ...]


def unit_of(story: Story) -> int | None:
    """The coarsest unit that all times are multiples of."""
    return next((unit for unit in UNITS if all(step.time % unit == 0 for step in story.steps)), None)


def plain(found: Found) -> bool:
    """No timer but those of box and relays can matter, and none has a tolerance: then hands decide all."""
    program = found.program
    parts = [*form_expressions(found.question.requirement.form)]
    parts += [part for given in program.givens for part in given_expressions(given)]
    return all(c.lo == c.hi for c in found.cone.clocks) and not any(True for part in parts for _ in memory(part))


def values(found: Found) -> list[list[int | Fraction]]:
    """What each name of the world can be."""
    choices: list[list[int | Fraction]] = []
    for name in found.cone.world:
        coded = found.cone.system.world.coded[name]
        variable = coded.variable
        known = (i if isinstance(variable, Switch) else example_value(variable, i) for i in coded.legal)
        choices.append(list(known))
    return choices


def changes(story: Story) -> int:
    return sum(
        a != b for one, two in pairwise(step.world for step in story.steps) for a, b in zip(one, two, strict=True)
    )


def others(found: Found, unit: int, last: int, most: int) -> Iterator[Story]:
    """Every story with at most so many changes, all on the grid and before `last` units, that is watched up to then."""
    names, choices = list(found.cone.world), values(found)
    for start in product(*choices):
        for count in range(most + 1):
            for when in combinations([(t, i) for t in range(1, last + 1) for i in range(len(names))], count):
                for new in product(*(choices[i] for _, i in when)):
                    yield from _made(names, start, list(zip(when, new, strict=True)), unit, last)


def _made(
    names: list[str], start: World, moves: list[tuple[tuple[int, int], int | Fraction]], unit: int, last: int
) -> Iterator[Story]:
    world, steps = list(start), [Step(Fraction(0), tuple(zip(names, start, strict=True)), ())]
    for (t, i), value in moves:
        if world[i] == value:
            return
        world[i] = value
        step = Step(Fraction(t * unit), tuple(zip(names, world, strict=True)), ())
        steps = [each for each in steps if each.time != step.time] + [step]
    end = Fraction(last * unit)
    if steps[-1].time < end:
        steps.append(Step(end, steps[-1].world, ()))
    yield Story(tuple(steps), (), False, frozenset(names))


def shows(found: Found, story: Story, unit: int) -> tuple[int, Fraction, bool] | None:
    """The moments and the end of a lawful story that shows the same with all times on the grid; None for any other."""
    form = found.question.requirement.form
    try:
        confirm(found.program, found.cone, story, form)
    except StoryRefused:
        return None
    timeline = played(found.program, story)
    end = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
    assert end is not None
    clocks = {clock.key for clock in found.cone.clocks}
    counted = {Fraction(0)}
    for before, now in pairwise(timeline.played):
        moved = any(now.world[name] != before.world[name] for name in found.cone.world)
        if now.time <= end.time and (moved or clocks & now.due):
            counted.add(Fraction(now.time))
    if any(time % unit for time in (*counted, end.time)):
        return None
    late = end.after and found.cone.late != ""
    return len(counted) + late, Fraction(end.time), late


def test_nothing_is_coarser_or_earlier() -> None:
    """Of random programs, wherever there are few enough other stories to play all of them."""
    tried = held = coarse = 0
    for found in random_stories(60):
        story, most = found.story, changes(found.story)
        unit = unit_of(story)
        if not plain(found) or unit is None:
            continue
        assert shows(found, story, unit) == (story.moments, story.steps[-1].time, story.overdue)
        span = sum(clock.hi for clock in found.cone.clocks) + sum(watch.time for watch in found.cone.watches)
        for other in UNITS[: UNITS.index(unit) + 1]:
            last = int(story.steps[-1].time // unit) if other == unit else span // other + story.moments
            size = last * len(found.cone.world) * max(map(len, values(found)), default=1)
            if size ** (most + 1) > MOST:
                continue
            coarse += other != unit
            for each in others(found, other, last, most):
                tried += 1
                better = shows(found, each, other)
                if better is None or better[0] > story.moments:
                    continue
                assert better[0] == story.moments
                assert other == unit
                assert better[1:] >= (story.steps[-1].time, story.overdue), (found.question.requirement.text, each)
                held += 1
    assert tried > 1000
    assert held > 30
    assert coarse > 10
