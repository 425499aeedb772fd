"""What can matter to a question, and that nothing it needs is left out."""

from __future__ import annotations

import pytest

from logiccheck.engine.cone import Cone, exact
from tests.engine.asking import question, questions
from tests.model.driven import boxed
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

LAMP = "output lamp when blink(true, on 0.5 s, off 0.5 s)"
HORN = "output horn when on_delay(y, 1 s) or one_shot(y, 2 s)"
GIVEN = "given\n    y lasts at least 5 s\n    never x and z\n    z lasts at most 9 s\n"


def keys(cone: Cone) -> set[str]:
    return {clock.key for clock in cone.clocks} | {watch.key for watch in cone.watches}


@pytest.mark.parametrize("told", [False, True])
def test_what_has_nothing_to_do_with_it_is_not_in_it(told: bool) -> None:
    """A blinker, a horn with its hand and what is given of that hand; but what is given of x and of z with it is."""
    asked = "requirements\n    danger d never q and not x for longer than 2 s\n"
    program = boxed("output q when off_delay(x, 3 s)", LAMP, HORN, inputs="xyz", more=GIVEN + asked)
    all_, wanted = question(program, "d")
    cone = all_.told(wanted) if told else all_.cone(wanted, wanted.bad)
    assert set(cone.world) == {"x", "z"}
    assert keys(cone) == {"q", "d:run", "given 2:run"}
    assert {c.line.text for c in cone.constraints if c.line} == {"never x and z", "z lasts at most 9 s"}
    assert not any(bit.name.startswith(("lamp", "horn")) for bit in cone.bits)


def test_the_blinker_is_there_when_it_is_asked_for() -> None:
    """Both of its clocks, and no hand at all: the box is always fed."""
    all_, wanted = question(boxed("output q when x", LAMP, more="requirements\n    danger d never lamp"), "d")
    cone = all_.cone(wanted, wanted.bad)
    assert keys(cone) == {"lamp.on", "lamp.off"}
    assert cone.world == {}


def test_what_counts_in_a_story_is_what_is_named() -> None:
    """y is named and cannot matter: a proof leaves it out, a story counts it."""
    asked = "requirements\n    danger d never q"
    program = boxed("output q when x or y and not y or on_delay(y, 1 s) and false", inputs="xy", more=asked)
    all_, wanted = question(program, "d")
    assert set(all_.cone(wanted, wanted.bad).world) == {"x"}
    assert set(all_.told(wanted).world) == {"x", "y"}
    assert keys(all_.told(wanted)) == {"q"}


def test_cones_are_closed() -> None:
    """Every input that anything in a cone hangs on is an input of it or one of its bits, and operands come first."""
    count = 0
    for seed in range(40):
        asked = questions(loaded(random_program(seed).text))
        for each in asked.all:
            for cone in (asked.cone(each, each.bad), asked.told(each), exact(asked.cone(each, each.bad))):
                stored = {bit.now >> 1 for bit in cone.bits}
                assert not stored & set(cone.inputs)
                free = {node for node in cone.order if cone.aig.operands[node] is None}
                assert free <= stored | set(cone.inputs), each.requirement.text
                assert len(cone.order) == len(set(cone.order))
                count += 1
            assert not exact(asked.cone(each, each.bad)).watches
    assert count > 200
