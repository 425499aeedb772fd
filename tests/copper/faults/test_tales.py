"""Tell-tales that come on with nothing broken, too, show no fault."""

from __future__ import annotations

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.answers import Hidden, Noticed, Tales, Unclear
from logiccheck.copper.faults.tales import tales_of
from logiccheck.engine.check import check_program
from logiccheck.study.faults import faults
from tests.oracle.loading import loaded

LAMPS = """
vehicle "Lamps"
world
    key  off | run
    door contact
    at first key is off
harness
    source plus
    wire key_wire from plus when key is run
    wire lamp_wire from plus when key is run
    relay test coil key_wire and not on_delay(key_wire, 3 s) supply plus
    wire test_wire from plus when test
    wire door_wire from plus when key is run and door
    relay alarm_k coil key_wire and not lamp_wire supply plus
    wire alarm from plus when alarm_k
requirements
    function lit always lamp_wire while key is run
electrics
    tell_tale key_wire  "Key lamp"  while key is run within 1 s
    tell_tale door_wire "Door lamp" while key is run within 1 s
    tell_tale alarm     "Alarm"     while key is run within 1 s
"""


def labels(tales: Tales) -> dict[str, list[str]]:
    names = ("counted", "always", "unknown", "at_times", "unclear")
    return {name: [tale.label for tale in getattr(tales, name)] for name in names if getattr(tales, name)}


def test_what_tell_tales_do_while_nothing_is_broken() -> None:
    """Always on; at times on; only with a fault."""
    found = tales_of(loaded(LAMPS), Budget(60), lambda _: None)
    assert labels(found) == {"always": ["Key lamp"], "counted": ["Door lamp", "Alarm"], "at_times": ["Door lamp"]}


def test_a_lamp_that_is_tested_with_each_start_can_be_on() -> None:
    """It is dark after the test, with nothing broken, and so it can show a fault."""
    text = LAMPS.replace("tell_tale key_wire ", "tell_tale test_wire")
    found = labels(tales_of(loaded(text), Budget(60), lambda _: None))
    assert found == {"counted": ["Key lamp", "Door lamp", "Alarm"], "at_times": ["Key lamp", "Door lamp"]}


def test_what_comes_on_anyway_shows_no_fault() -> None:
    """The alarm does; without it nothing does, though the key lamp is on with each of them."""
    program = loaded(LAMPS)
    found = faults(program, check_program(program), Budget(60), lambda _: None)
    notices = {fault.id: notice for fault, notice in zip(found.faults, found.notices, strict=True)}
    noticed = notices["lamp_wire open"]
    assert isinstance(noticed, Noticed)
    assert noticed.by.label == "Alarm"
    program = loaded(LAMPS.replace('    tell_tale alarm     "Alarm"     while key is run within 1 s\n', ""))
    found = faults(program, check_program(program), Budget(60), lambda _: None)
    notices = {fault.id: notice for fault, notice in zip(found.faults, found.notices, strict=True)}
    assert isinstance(notices["lamp_wire open"], Hidden)


def test_without_time_nothing_is_known() -> None:
    """And then none counts as a sign."""
    program = loaded(LAMPS)
    assert labels(tales_of(program, Budget(0), lambda _: None)) == {"unknown": ["Key lamp", "Door lamp", "Alarm"]}
    found = faults(program, check_program(program), Budget(0), lambda _: None)
    assert {type(notice) for notice in found.notices} == {Unclear}
