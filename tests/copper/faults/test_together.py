"""All faults in one vehicle, and each in a vehicle of its own: the same table, and stories as short."""

from __future__ import annotations

from pathlib import Path

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.faults import deciding
from logiccheck.copper.faults.answers import Broken, Fails, Hidden, Noticed, Open, Outcome
from logiccheck.copper.faults.parts import When, faults_of
from logiccheck.engine.check import check_program
from logiccheck.engine.decider import undecided
from logiccheck.engine.replay import StoryRefused
from logiccheck.engine.verdict import SHORT_CIRCUIT, Check, Undecided
from logiccheck.study.faults import faults
from tests.copper.breakable import breakable_vehicle
from tests.copper.faults.breaking import broken, table
from tests.oracle.loading import loaded

EXAMPLES = Path(__file__).parents[3] / "examples"

STOPS = """
vehicle "A step that has to move"
world
    key  off | on
    step in | between | out    one by one
    at first key is off, step is in
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key is on
    wire up_wire from plus when step is in
controller "Box" powered by feed
    sense wanted from key_wire live
    sense up from up_wire live
    output motor when wanted or not up
given
    step changes only while motor
    step is between lasts at most 30 s
requirements
    danger   still never step is between and not motor
    function lamp  always feed
    function moves possible step is out
"""

CHASES = """
vehicle "A relay that would chase itself"
world
    key off | on
harness
    source plus
    wire key_wire from plus when key is on
    wire coil_wire
    diode key_wire -> coil_wire
    relay main coil coil_wire
    relay other coil back
    wire back from key_wire when not other
requirements
    danger idle never key_wire while key is off
"""

TELL_TALE = """
vehicle "Seen or not"
world
    key off | run
    at first key is off
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key is run
    wire lamp_wire
controller "Box" powered by feed
    sense key_on from key_wire live
    output lamp when key_on
    output alarm when on_delay(not key_on, 1 s)
electrics
    tell_tale alarm "The alarm sounds" while key is run within 2 s
requirements
    danger dark never lamp while key is off
"""

LONG_WAY = f"""
vehicle "A long way"
world
    lever {" | ".join(f"p{number}" for number in range(28))}    one by one
    at first lever is p0
harness
    source plus
    wire far from plus when lever is p27
    wire near from plus
controller "Box" powered by plus
    sense arrived from far live
    sense there from near live
    output horn when arrived and not there
requirements
    danger quiet never horn
"""


def moments(outcome: Outcome) -> int | None:
    return outcome.story.moments if isinstance(outcome, Fails) and outcome.story is not None else None


def same(one: Broken, other: Broken) -> list[str]:
    """Where they differ; a story that need not be a shortest one is not compared."""
    found = []
    assert len(one.pairs) == len(other.pairs)
    for mine, theirs in zip(one.pairs, other.pairs, strict=True):
        for (when, a), (_, b) in zip(mine.outcomes(), theirs.outcomes(), strict=True):
            name = f"{mine.fault.id}, {when.value}, {mine.requirement.name}"
            if type(a) is not type(b):
                found.append(f"{name}: {a} but {b}")
            elif isinstance(a, Fails) and a.shortest and moments(a) != moments(b):
                found.append(f"{name}: {moments(a)} moments but {moments(b)}")
    for fault, a_notice, b_notice in zip(one.faults, one.notices, other.notices, strict=True):
        if type(a_notice) is not type(b_notice):
            found.append(f"{fault.id}: {a_notice} but {b_notice}")
    return found


def test_all_at_once_is_as_one_by_one_on_an_example() -> None:
    text = (EXAMPLES / "first-steps" / "van.circuit").read_text(encoding="utf-8")
    assert same(broken(text), broken(text, one_by_one=True)) == []


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_all_at_once_is_as_one_by_one_on_random_vehicles(seed: int) -> None:
    text = breakable_vehicle(seed)
    assert same(broken(text), broken(text, one_by_one=True)) == []


def test_a_fault_that_stops_time_blocks_what_rests_on_it_and_no_other_fault() -> None:
    found = broken(STOPS)
    got = table(found)
    assert same(found, broken(STOPS, one_by_one=True)) == []
    assert got["motor stuck off", "still"] == ".BF"  # from the start the step never moves
    assert got["motor stuck on", "still"] == "..."
    assert got["motor stuck off", "lamp"] == "..."  # time stops for the step; the wire has nothing to do with it


def test_a_fault_with_which_something_never_settles_blocks_only_itself() -> None:
    found = broken(CHASES)
    assert same(found, broken(CHASES, one_by_one=True)) == []


def test_a_fault_is_noticed_where_some_tell_tale_always_shows_it_in_time() -> None:
    found = broken(TELL_TALE)
    notices = {fault.id: notice for fault, notice in zip(found.faults, found.notices, strict=True)}
    assert isinstance(notices["alarm stuck on"], Noticed)
    assert isinstance(notices["lamp stuck off"], Hidden)
    dead = notices["key_on dead"]
    assert isinstance(dead, Hidden)
    assert dead.when is When.LOOSE  # if it stays, the alarm sounds in time
    assert dead.story is not None
    assert same(found, broken(TELL_TALE, one_by_one=True)) == []


def test_without_time_all_is_open_and_with_none_declared_all_is_hidden() -> None:
    program = loaded(TELL_TALE)
    none = faults(program, check_program(program), Budget(0), lambda _: None)
    assert {type(outcome) for pair in none.pairs for _, outcome in pair.outcomes()} == {Open}
    assert {outcome.why for pair in none.pairs for _, outcome in pair.outcomes() if isinstance(outcome, Open)} == {
        Undecided.BUDGET
    }


def test_without_time_no_vehicle_of_one_fault_is_made_ready(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(deciding, "Asking", None)
    program = loaded(TELL_TALE)
    none = faults(program, check_program(program), Budget(0), lambda _: None, one_by_one=True)
    assert {outcome for pair in none.pairs for _, outcome in pair.outcomes()} == {Open(Undecided.BUDGET)}
    assert none.bugs == ()


def test_without_memory_to_make_ready_what_was_decided_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(deciding, "group", full)
    program = loaded(TELL_TALE)
    none = faults(program, check_program(program), Budget(60), lambda _: None)
    assert {outcome for pair in none.pairs for _, outcome in pair.outcomes()} == {Open(Undecided.MEMORY)}


def test_where_the_check_broke_off_no_short_circuit_is_taken_as_proved() -> None:
    program = loaded(TELL_TALE)
    whole = Check((), tuple(undecided(each, Undecided.MEMORY) for each in program.requirements))
    found = faults(program, whole, Budget(0), lambda _: None)
    assert found.asked == ()
    assert [each.requirement.name for each in found.unasked] == ["dark", SHORT_CIRCUIT]
    assert SHORT_CIRCUIT in {
        each.name for each in faults(program, check_program(program), Budget(0), lambda _: None).asked
    }


def test_a_fault_that_shows_only_after_many_moments_keeps_no_other_from_being_decided() -> None:
    some = tuple(fault for fault in faults_of(loaded(LONG_WAY)) if fault.part in ("there", "arrived", "horn"))
    program = loaded(LONG_WAY)
    got = table(faults(program, check_program(program), Budget(600), lambda _: None, only=some, names=("quiet",)))
    assert got["there dead", "quiet"] == "FFF"
    assert got["arrived live", "quiet"] == "..."
    assert got["horn stuck off", "quiet"] == "..."


@pytest.mark.our_bug
def test_a_story_that_does_not_play_is_our_bug_and_no_failure(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise StoryRefused("it does not play")

    monkeypatch.setattr(deciding, "confirm", refused)
    program = loaded(TELL_TALE)
    found = faults(program, check_program(program), Budget(60), lambda _: None, names=("dark",))
    touched = {outcome for pair in found.pairs if pair.touched for _, outcome in pair.outcomes()}
    assert touched == {Open(Undecided.OUR_BUG)}  # the very one that was met, too
    assert found.bugs


def test_what_was_decided_before_an_interruption_stays() -> None:
    program = loaded(TELL_TALE)

    def stop(what: str) -> None:
        if what == "no_short_circuit":
            raise KeyboardInterrupt

    found = faults(program, check_program(program), Budget(60), stop)
    assert found.interrupted
    got = table(found)
    assert got["lamp stuck on", "dark"] == "FFF"
    assert got["lamp stuck on", "no_short_circuit"] == "???"
