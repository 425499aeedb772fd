"""A vehicle shown at work: what comes on and goes off, each by a shortest story, and what never does."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain import touring
from logiccheck.explain.asking import Blocked, Never, Open, Seen
from logiccheck.explain.touring import Tour, switched, tour
from logiccheck.lang.program import Edge, Program
from logiccheck.model.play import play_story
from tests.explain.exploring import possible
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

BOX = """
vehicle "Box"
world
    battery connected | disconnected
    key     contact
    at first battery is connected, not key
harness
    source plus when battery is connected
    wire feed from plus
    wire k    from plus when key
    load always_there on feed 1 A
controller "Box" powered by feed
    sense key_on from k live
    output lamp   when off_delay(key_on, 3 s)
    output nothing when key_on and not key_on
"""


def shown(program: Program, seconds: float = 60.0) -> Tour:
    return tour(program, Budget(seconds), lambda _: None)


def test_what_comes_on_and_what_goes_off() -> None:
    """A story in which no source dies is preferred; where there is none, one in which a source does."""
    found = shown(loaded(BOX))
    kinds = {each.asked.name: (type(each.on), type(each.off)) for each in found.each}
    assert kinds == {"always_there": (Seen, Seen), "lamp": (Seen, Seen), "nothing": (Never, type(None))}
    ends = {each.asked.name: each.off.story for each in found.each if isinstance(each.off, Seen)}
    assert dict(ends["always_there"].steps[-1].world)["battery"] == 1
    assert dict(ends["lamp"].steps[-1].world)["battery"] == 0
    assert [len(story.steps) for story in ends.values()] == [2, 4]


def test_the_vehicle_as_one() -> None:
    """It is powered from the start; so to see it wake takes a story in which it slept before."""
    whole = shown(loaded(BOX)).whole
    assert whole is not None
    assert isinstance(whole.on, Seen)
    assert isinstance(whole.off, Seen)
    assert (whole.on.story.moments, whole.off.story.moments) == (3, 2)


def test_without_anything_that_is_switched() -> None:
    """There is nothing to show."""
    assert shown(loaded('vehicle "Bare"\nworld\n    key contact\n')) == Tour(None, (), False, None)


def test_chasing_relays_are_said() -> None:
    """Where not all comes to rest, what is never on is no proof, and why is known."""
    text = 'vehicle "Buzz"\nworld\n    key contact\nharness\n    source plus\n    relay r coil not r supply plus\n'
    found = shown(loaded(text))
    assert found.unsettled is Obstacle.UNSETTLED
    assert all(isinstance(each.on, Blocked) for each in found.each)


def test_interrupted(monkeypatch: pytest.MonkeyPatch) -> None:
    """What was found stays; the rest is open, and each thing is told once."""
    asked = iter(range(100))

    class Stopped(touring.Asking):
        def possible(self, condition: object) -> object:  # type: ignore[override]
            if next(asked) == 5:
                raise KeyboardInterrupt
            return super().possible(condition)  # type: ignore[arg-type]

    monkeypatch.setattr(touring, "Asking", Stopped)
    found = shown(loaded(BOX))
    assert found.interrupted
    assert [each.asked.name for each in found.each] == ["always_there", "lamp", "nothing"]
    assert found.each[-1].on == Open(Undecided.INTERRUPTED)


def test_interrupted_before_anything_was_asked() -> None:
    """Everything is open, and nothing is said not to be there."""

    def stop(_: str) -> None:
        raise KeyboardInterrupt

    found = tour(loaded(BOX), Budget(60.0), stop)
    assert found.whole is not None
    assert all(each.on == Open(Undecided.INTERRUPTED) for each in (found.whole, *found.each))


def test_out_of_time() -> None:
    """Without time everything is open."""
    assert all(each.on == Open(Undecided.BUDGET) for each in shown(loaded(BOX), 1e-9).each)


@pytest.mark.parametrize("seed", range(7000, 7030))
def test_explored(seed: int) -> None:
    """Exploring all of a random vehicle finds stories as short, and none where it is said that there is none."""
    program = loaded(random_program(seed).text)
    found = shown(program)
    for each in islice(found.each, 4):
        falls = Edge(False, each.asked.on, "falls")
        for answer, condition in ((each.on, each.asked.on), (each.off, falls)):
            try:
                moments = possible(replace(program, requirements=()), condition)
            except TooBig:
                continue
            if isinstance(answer, Never) and found.unsettled is None:
                assert moments == 0
            elif isinstance(answer, Seen) and isinstance(moments, int):
                assert answer.story.moments >= moments > 0
                if condition is each.asked.on:
                    assert answer.story.moments == moments
                assert play_story(program, answer.story).settled


def test_switched_in_the_order_of_the_file() -> None:
    """Relays, loads, outputs."""
    assert [each.name for each in switched(loaded(BOX))] == ["always_there", "lamp", "nothing"]
