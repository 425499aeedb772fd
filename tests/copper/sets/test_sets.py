"""Cut sets on small vehicles of which they can be told by looking."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import faults_of
from logiccheck.copper.sets import search
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.lang.program import Program
from logiccheck.model.judge import broken, violated
from logiccheck.model.play import play_story
from logiccheck.study.cut_sets import CutSets, cut_sets
from tests.oracle.loading import loaded


def sought(program: Program, order: int, *names: str, only: str = "", seconds: float = 60) -> CutSets:
    """With faults whose id holds `only`."""
    faults = [fault for fault in faults_of(program) if only in fault.id]
    return cut_sets(program, faults, order, names, Budget(seconds), lambda _: None)


def sets(found: CutSets, name: str) -> set[str]:
    """The sets of one requirement, as text."""
    cuts = next(each for each in found.cuts if each.requirement.name == name)
    ids = [fault.id for fault in found.vehicle.faults]
    return {" + ".join(sorted(ids[number] for number in each.faults)) for each in cuts.sets}


TWO_WIRES = """
vehicle "Two wires"
world
    lever contact
harness
    source plus
    wire a from plus
    wire b from plus
    wire c from plus when lever
controller "Box" powered by plus
    sense a_live from a live
    sense b_live from b live
    output both   when not a_live and not b_live
    output a_then when bistable(set not a_live and b_live) and not b_live
    output late   when on_delay(not a_live, 2 s)
requirements
    danger   never_both  never both
    danger   never_then  never a_then
    danger   never_late  never late
    danger   not_on      never b_live while lever
    function can         possible both
    function not_c       never c
"""


@pytest.fixture(scope="module")
def two_wires() -> CutSets:
    return sought(loaded(TWO_WIRES), 2, only="open")


def test_two_that_have_to_break_together(two_wires: CutSets) -> None:
    """Neither alone is enough."""
    assert sets(two_wires, "never_both") == {"a open + b open"}


def test_one_that_has_to_break_before_the_other(two_wires: CutSets) -> None:
    """A set may need its faults in one order; its story has them in that."""
    assert sets(two_wires, "never_then") == {"a open + b open"}
    story = next(each for each in two_wires.cuts if each.requirement.name == "never_then").sets[0].story
    came = {name: min(step.time for step in story.steps if dict(step.world)[name]) for name in ("a open", "b open")}
    assert came["a open"] < came["b open"]


def test_one_that_has_to_last(two_wires: CutSets) -> None:
    """Time counts as in any story."""
    assert sets(two_wires, "never_late") == {"a open"}


def test_a_requirement_that_fails_with_nothing_broken(two_wires: CutSets) -> None:
    """The empty set is the only one."""
    cuts = next(each for each in two_wires.cuts if each.requirement.name == "not_on")
    assert [each.faults for each in cuts.sets] == [frozenset()]
    assert (cuts.complete, cuts.why) == (2, None)


def test_without_names_all_that_guard_against_danger_are_asked(two_wires: CutSets) -> None:
    """What guards something else, and what the program brings, only by name."""
    assert [each.requirement.name for each in two_wires.cuts] == ["never_both", "never_then", "never_late", "not_on"]


def test_what_must_be_possible_is_not_asked() -> None:
    """No story breaks it, so no faults that may stay away do."""
    found = sought(loaded(TWO_WIRES), 1, "can", only="open")
    assert ([each.name for each in found.possible], found.cuts) == (["can"], ())


def test_each_story_plays_on_the_vehicle_with_just_these_faults(two_wires: CutSets) -> None:
    """It breaks the requirement as written there, meets all that is given, and ends with all of the faults there."""
    program = loaded(TWO_WIRES)
    for cuts in two_wires.cuts:
        for each in cuts.sets:
            some = [two_wires.vehicle.faults[number] for number in sorted(each.faults)]
            vehicle = together(program, some)
            timeline = play_story(vehicle, two_wires.vehicle.bare(each))
            asked = next(r for r in vehicle.requirements if r.name == cuts.requirement.name)
            assert violated(timeline, asked.form) is not None
            assert broken(timeline) == ()
            assert all(timeline.settled[-1].moment.settled.values.world[fault.id] == 1 for fault in some)


ONE_PART = """
vehicle "One part"
harness
    source plus
    wire a
    wire b from plus
controller "Box" powered by plus
    sense a_live     from a live
    sense a_grounded from a grounded
    output odd when bistable(set a_grounded and not a_live) and a_live
requirements
    danger never_odd never odd
"""


def test_a_part_has_one_fault_in_a_set() -> None:
    """Grounded first and then live would do it, but that is one wire with two faults."""
    found = sought(loaded(ONE_PART), 2, only="a ")
    assert [fault.id for fault in found.vehicle.faults] == ["a open", "a live", "a grounded"]
    assert sets(found, "never_odd") == set()
    assert found.cuts[0].complete == 2
    assert "a live + a_grounded grounded" in sets(sought(loaded(ONE_PART), 2), "never_odd")


LONG_WAY = """
vehicle "Long way"
world
    knob  a | b | c | d | e   one by one
    lever contact
    at first knob is a
harness
    source plus
    wire w from plus
    wire v from plus
    wire x from plus
    wire end from plus when knob is e
controller "Box" powered by plus
    sense w_live from w live
    sense v_live from v live
    sense x_live from x live
    sense at_end from end live
    output ok   when w_live and (v_live or x_live)
    output late when not ok and at_end
requirements
    danger asked {}
"""


@pytest.mark.parametrize(
    "required",
    [
        "never late",
        "never late even for an instant",
        "never late for longer than 1 s",
        "knob is e calls for ok no later than 1 s",
        "knob is e calls for ok no later than 1 s, excused by lever",
        "knob is e calls for ok lasting 1 s",
        "late only after lever",
        "late waits for lever",
    ],
)
def test_every_form_far_from_the_start(required: str) -> None:
    """What shows only after many moments is found by asking, and is all there is."""
    found = sought(loaded(LONG_WAY.format(required)), 3, only="open")
    assert sets(found, "asked") == {"w open", "v open + x open"}
    assert found.cuts[0].complete == 3


def test_a_short_circuit_is_asked_for_by_name() -> None:
    """A wire shorted to ground is one by itself."""
    found = sought(loaded(ONE_PART), 1, "no_short_circuit", only="grounded")
    assert sets(found, "no_short_circuit") == {"b grounded"}


DIPPING = """
vehicle "Dipping"
world
    key off | start
harness
    source plus
    wire a from plus
    wire b from plus
controller "Box" powered by plus
    sense b_live from b live
    rule begun = bistable(set b_live)
    output pump when not begun and previous(not begun) and on_delay(not b_live, 1 s)
electrics
    dip plus while key is start for at most 50 ms
requirements
    danger lost     never key is start and not a
    danger forgets  never pump
"""


@pytest.fixture(scope="module")
def dipping() -> tuple[Program, CutSets]:
    program = loaded(DIPPING)
    return program, sought(program, 2)


def test_a_dip_is_a_fault_of_its_own(dipping: tuple[Program, CutSets]) -> None:
    """It goes again, and the box has forgotten what it knew; a wire that opens for good is another."""
    _, found = dipping
    assert {"a open", "plus dipped", "plus dead"} <= sets(found, "lost")
    assert "b open" in sets(found, "forgets")
    assert all(cuts.complete == 2 for cuts in found.cuts)


def test_a_dip_counts_only_in_its_set(dipping: tuple[Program, CutSets]) -> None:
    """What lets it in is shown nowhere, and where it is not in the set neither is it."""
    program, found = dipping
    for cuts in found.cuts:
        for each in cuts.sets:
            some = [found.vehicle.faults[number] for number in sorted(each.faults)]
            story, vehicle = found.vehicle.bare(each), together(program, some)
            known = {switch.name for switch in vehicle.switches}
            assert {name for step in story.steps for name, _ in step.world} <= known
            assert "plus dipped, let in" not in story.involved
            asked = next(r for r in vehicle.requirements if r.name == cuts.requirement.name)
            assert violated(play_story(vehicle, story), asked.form) is not None


CHASING = """
vehicle "Chasing"
harness
    source plus
    wire a from plus
    wire b from plus when not buzz
    wire c from plus when not a_there
    relay a_there coil a
    relay buzz coil b and not a
controller "Box" powered by plus
    sense c_live from c live
    output lamp when c_live
requirements
    danger no_lamp never lamp
"""


def test_a_fault_that_keeps_things_from_settling_is_left_out() -> None:
    """With it relays chase each other, and nothing that rests on settled moments can be proved."""
    found = sought(loaded(CHASING), 1, only="open")
    (cuts,) = found.cuts
    ids = [fault.id for fault in found.vehicle.faults]
    assert [([ids[n] for n in each.faults], each.by) for each in cuts.barred] == [(["a open"], Obstacle.UNSETTLED)]
    assert cuts.complete == 1


def test_no_time_is_no_promise() -> None:
    """What was not reached is said to be so."""
    found = sought(loaded(TWO_WIRES), 2, only="open", seconds=0)
    assert all(cuts.complete is None and cuts.why is Undecided.BUDGET for cuts in found.cuts)


BUSY = """
vehicle "Busy"
world
    key   off | run
    lever contact
    knob  contact
    at first key is off
harness
    source plus
    wire a from plus when knob or not knob
    wire b from plus when lever
    wire c from plus when knob
controller "Box" powered by plus
    sense a_live from a live
    sense b_live from b live
    sense c_live from c live
    output lamp when not a_live and (b_live or not b_live or c_live)
requirements
    danger no_lamp never lamp while key is run
"""


def test_hands_move_no_more_than_they_must() -> None:
    """What is moved in a story is what it takes: here the key, and the fault is there from the start."""
    found = sought(loaded(BUSY), 1, only="a open")
    (cut,) = found.cuts[0].sets
    first, last = cut.story.steps
    assert {name for name, value in first.world if value} == {"a open"}
    assert dict(last.world) == {**dict(first.world), "key": 1}


def test_without_time_nothing_is_made_ready(monkeypatch: pytest.MonkeyPatch) -> None:
    """That takes time, too."""
    monkeypatch.setattr(search, "Asking", None)
    found = sought(loaded(TWO_WIRES), 2, only="open", seconds=0)
    assert {(cuts.complete, cuts.why) for cuts in found.cuts} == {(None, Undecided.BUDGET)}
