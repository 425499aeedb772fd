"""What is given stops time only where nothing that hands can lawfully do leads on; worked out by hand."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Obstacle
from tests.oracle.loading import loaded
from tests.oracle.written import program

KEY = "key off | accessory | run | start"
ALWAYS_ON = ("output lamp when true",)  # from time 0 on; hands cannot end it


def said(
    requirement: str, world: tuple[str, ...], given: tuple[str, ...], box: tuple[str, ...] = ALWAYS_ON
) -> tuple[list[Obstacle], Kind]:
    """The troubles of what is given, and the verdict of the requirement."""
    check = check_program(loaded(program(requirement, world=world, given=given, box=box)), seconds_each=120)
    return [trouble.obstacle for trouble in check.troubles], check.verdicts[0].kind


@pytest.mark.parametrize("other", ["never a", "a lasts at most 1 s", "a changes only while a"])
@pytest.mark.parametrize("first", [True, False])
def test_each_line_binds_whichever_comes_first(other: str, first: bool) -> None:
    """a is demanded for ever after 3 s, and it cannot be so."""
    lines = ("a is on after lamp has lasted 3 s", other)
    world = ("a contact", "at first a is off") if "changes" in other else ("a contact",)
    troubles, kind = said("never a for longer than 5 s", world, lines if first else lines[::-1])
    assert troubles == [Obstacle.TIME_STOPS]
    assert kind is Kind.BLOCKED


@pytest.mark.parametrize("position", ["off", "accessory", "run", "start"])
def test_any_position_may_be_the_one_that_is_demanded(position: str) -> None:
    """Hands put the key there at that moment at the latest."""
    lines = (f"key is {position} after lamp has lasted 3 s",)
    assert said(f"never key is {position}", (KEY,), lines) == ([], Kind.FAILS)
    assert said(f"never not key is {position} for longer than 3 s", (KEY,), lines) == ([], Kind.PROVED)


@pytest.mark.parametrize(("begin", "end"), [("off", "start"), ("start", "off"), ("start", "accessory"), ("run", "off")])
def test_a_key_turned_in_steps_is_turned_in_time(begin: str, end: str) -> None:
    """Also where it must be there a while before the moment, because a can be put on only while it is."""
    world = (f"{KEY} one by one", f"at first key is {begin}")
    assert said(f"never key is {end}", world, (f"key is {end} after lamp has lasted 3 s",)) == ([], Kind.FAILS)
    lines = (f"key is {end} and a after lamp has lasted 3 s", f"a changes only while key is {end}")
    assert said("never a", (*world[:1], "a contact", f"{world[1]}, a is off"), lines) == ([], Kind.FAILS)


def test_each_step_of_a_key_meets_what_is_given() -> None:
    """It cannot pass a position that never may be."""
    world = (f"{KEY} one by one", "at first key is off")
    lines = ("key is start after lamp has lasted 3 s", "never key is run")
    troubles, kind = said("never key is start", world, lines)
    assert troubles == [Obstacle.TIME_STOPS]
    assert kind is Kind.BLOCKED


def test_what_hands_can_prepare_does_not_stop_time() -> None:
    """a can be turned only while b is on, and b can be put on any moment before a is demanded."""
    world = ("a contact", "b contact", "at first a is off, b is off")
    lines = ("a is on after lamp has lasted 3 s", "a changes only while b")
    troubles, kind = said("never a", world, lines)
    assert troubles == []
    assert kind is not Kind.BLOCKED


def test_a_timer_that_may_still_fall_due_in_time_does_not_stop_time() -> None:
    """a is asked to be on from 1 s after u came, and off until v goes, which may be later, or just in time."""
    box = ("output u when on_delay(true, 4 s +- 1 s)", "output v when not on_delay(true, 4 s +- 1 s)")
    lines = ("a is on after u has lasted 1 s", "a is off after v has lasted 1 s")
    troubles, kind = said("never a", ("a contact",), lines, box)
    assert troubles == []
    assert kind is not Kind.BLOCKED
