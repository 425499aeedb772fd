"""What would turn a signal of a random vehicle is what trying everything finds: as few moves, and the same changes."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest

from logiccheck.explain.ordinary import Turn
from logiccheck.explain.situation import Asked, Situation, signals
from logiccheck.explain.turn import AFTERWARDS, MOVES_FOR_LATER, Chase, Moved, Stays, Turning, turning
from logiccheck.lang.program import Program
from logiccheck.model.play import play
from tests.campaign import seeds
from tests.explain.trying import Found, Trying, worlds_of
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.oracle.walks import Walker

SEEDS = 40
ASKED = 6  # signals of each
ALONE = 60  # moments that trying follows time alone
WORLDS = 600  # no more are tried


def situation(program: Program, random: Random) -> Situation | None:
    """Somewhere on a random walk that what is given allows; at a moment, or between two."""
    if not program.requirements:
        return None
    walk = Walker(program, random.choice(program.requirements).form, random).go(random.randrange(1, 9))
    if walk.cut is not None or walk.unsettled:
        return None
    first = {change.name: change.value for change in walk.changes if change.time == 0}
    timeline = play(program, walk.changes, walk.runs, walk.end, first)
    times = [each.time for each in timeline.settled]
    between = [Fraction(a + b, 2) for a, b in pairwise(times)]
    return Situation(timeline, random.choice([*times, *between]))


def same_time(found: Fraction, told: Fraction | int) -> bool:
    """Told is the time without the instants that hands take."""
    return 0 <= found - told < Fraction(1, 1000)


def check_now(told: Turning, found: list[Found]) -> str:
    least = min((each.moves for each in found), default=None)
    if not told.now:
        assert least is None or least > told.tried
        return "never at once"
    assert {turn.moves for turn in told.now} == {least} == {told.tried}
    worlds = [world for turn in told.now for world in worlds_of(turn)]
    assert sorted(worlds) == sorted(each.world for each in found if each.moves == least)
    return f"at once: {least}"


def check_later(told: Turning, found: list[Found]) -> str:
    least = min((each.moves for each in found), default=None)
    if not told.later:
        assert least is None or least > told.tried_later
        return "never later"
    assert {turn.moves for turn in told.later} == {least} == {told.tried_later}
    wanted = {each.world: each.time for each in found if each.moves == least}
    worlds = {world: turn.time for turn in told.later for world in worlds_of(turn)}
    assert worlds.keys() == wanted.keys()
    for world, time in worlds.items():
        expected = wanted[world]
        assert time is not None
        assert expected is not None
        assert same_time(expected, time)
    return f"later: {least}"


def check_alone(told: Turning, trying: Trying) -> str:
    lawful, whole = trying.lawful.copy(), trying.whole.copy()
    time = trying.follow(lawful, whole, ALONE)
    match told.alone:
        case Turn(time=when) if when is not None and when <= whole.time:
            assert time is not None
            assert same_time(time, when)
            return "alone: turns"
        case Moved(time=when) if when <= whole.time:
            assert lawful.cut
            assert same_time(lawful.time, when)
            return "alone: moved"
        case Chase(time=when) if when <= whole.time:
            assert whole.chases
            assert when == whole.time
            return "alone: chases"
        case Stays():
            assert time is None
            assert lawful.goes_on
            assert whole.goes_on
            return "alone: stays"
        case _:
            assert time is None
            return "alone: not followed so far"


def check(place: Situation, asked: Asked) -> list[str]:
    trying = Trying(place, asked)
    as_few = place.at % 2 == 1
    told = turning(place, asked, as_few)
    assert told.on is trying.on
    assert not told.unmet
    tags = [check_now(told, trying.now()), check_alone(told, trying)]
    if as_few or not isinstance(told.alone, Turn):
        below = told.now[0].moves + as_few if told.now else MOVES_FOR_LATER + 1
        found = trying.later(below, AFTERWARDS)
        end = told.alone.time if isinstance(told.alone, Turn) else None
        tags.append(
            check_later(told, [each for each in found if each.time is not None and (end is None or each.time < end)])
        )
    return tags


def check_seed(seed: int) -> list[str]:
    """A few signals of one program, each somewhere on a walk."""
    program, random = loaded(random_program(seed).text), Random(seed)
    tags = []
    for _ in range(ASKED):
        place = situation(program, random)
        asked = random.choice(list(signals(program).values()))
        if place is None or sum(1 for _ in Trying(place, asked).worlds()) > WORLDS:
            continue
        try:
            tags += check(place, asked)
        except AssertionError as error:
            raise AssertionError(f"program {seed}, {asked.name} at {place.time} us: {error}") from error
    return tags


def test_what_turns_it_is_what_trying_everything_finds() -> None:
    """On random programs; and each answer comes up."""
    tags = Counter(tag for seed in range(SEEDS) for tag in check_seed(seed))
    assert {"at once: 1", "at once: 2", "never at once", "later: 1", "never later"} <= tags.keys()
    assert {"alone: turns", "alone: stays"} <= tags.keys()


@pytest.mark.campaign
def test_what_turns_it_is_what_trying_everything_finds_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds(50):
        check_seed(each)
