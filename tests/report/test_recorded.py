"""A played scenario as a file: every line of it, and it plays again as expected until the rules change."""

from __future__ import annotations

from logiccheck.lang.load import Loaded, load
from logiccheck.lang.reading import Unreadable
from logiccheck.report.played import play_report
from logiccheck.report.recorded import recorded
from logiccheck.report.report import Outcome, Report
from logiccheck.study.simulate import simulate

VEHICLE = """\
vehicle "Test"
world
    door "Driver's door" closed | open
    engine 0 .. 7000 rpm
harness
    source plus
    wire wake from plus when door is open
    relay hold coil off_delay(wake, 240 s +- 10 s)
    wire feed from plus when hold
    load lamp on wake 1 A
controller "Box" powered by feed
    sense revs from engine
    output pump "Fuel pump" when one_shot(true, 3 s) or blink(revs above 300 rpm, on 1 s +- 0.5 s, off 1 s)
scenario day "A short day"
    at 1 s  door is open
    at 2 s  expect pump
    at 7 s  door is closed
    at 7 s  hold lasts 235 s
    until 300 s
"""
KEPT = """\
language 1

# A short day
# Played with test.circuit, and kept with what its outputs, relays and loads did then. Play it again after a change:
#   logiccheck play test.circuit --scenario-file kept/day.circuit

scenario day_kept "A short day"
    at first  door is closed, engine is 0 rpm
    at 0 s  expect not hold, not lamp, not powered, not pump
    at 1 s  door is open
    at 1 s  expect hold, lamp, powered, pump
    at 4 s  expect not pump
    at 7 s  door is closed
    at 7 s  hold lasts 235 s
    at 7 s  expect not lamp
    at 242 s  expect not hold, not powered
    until 300 s
"""


def vehicle(text: str = VEHICLE, other: str = "") -> Loaded:
    files = {"test.circuit": text, "kept.circuit": other}
    return load(
        "test.circuit",
        lambda path: files[path].encode() if path in files else Unreadable.MISSING,
        ("kept.circuit",) if other else (),
    )


def kept(text: str = VEHICLE) -> str:
    loaded = vehicle(text)
    assert loaded.program is not None
    saved = recorded(loaded.program, simulate(loaded.program, loaded.program.scenarios[0]), loaded.texts)
    assert saved.name == "day.circuit"
    return saved.text("kept/day.circuit")


def again(text: str, other: str) -> Report:
    """The kept scenario played with a vehicle."""
    loaded = vehicle(text, other)
    assert loaded.program is not None, loaded.diagnostics
    scenario = next(each for each in loaded.program.scenarios if each.span.file == "kept.circuit")
    return play_report(loaded.program, loaded.files, [simulate(loaded.program, scenario)])


def test_every_line() -> None:
    """Hands, chosen durations, and at each moment what turned among outputs, relays and loads."""
    assert kept() == KEPT


def test_it_plays_as_expected_until_something_changes() -> None:
    """As it was it is as expected; with a shorter prime it is not."""
    assert again(VEHICLE, KEPT).outcome is Outcome.GOOD
    report = again(VEHICLE.replace("one_shot(true, 3 s)", "one_shot(true, 4 s)"), KEPT)
    assert report.outcome is Outcome.FAILS
    assert [part.sentence for part in report.played[0].expectations if not part.met] == [
        "At 4 s NOT as expected: not pump"
    ]


def test_a_timer_that_is_two_is_named_in_quotes() -> None:
    """The phases of a blinker have no name of their own."""
    text = VEHICLE.replace(
        "    at 7 s  door is closed\n", '    at 5 s  engine is 900 rpm\n    at 5 s  "pump, number 2.on" lasts 1.5 s\n'
    )
    text = text.replace("    at 7 s  hold lasts 235 s\n", "").replace("until 300 s", "until 7 s")
    assert '    at 5 s  "pump, number 2.on" lasts 1.5 s\n' in kept(text)
    assert again(text, kept(text)).outcome is Outcome.GOOD


def test_many_expectations_take_many_lines() -> None:
    """No line is wider than a hundred columns."""
    more = "".join(f"    output with_a_long_name_{number} when revs above {number}00 rpm\n" for number in range(1, 9))
    lines = kept(VEHICLE.replace("scenario day", f"{more}scenario day")).splitlines()
    assert max(map(len, (line for line in lines if "expect" in line))) <= 100
    assert sum("at 0 s  expect" in line for line in lines) > 1


def test_rules_that_chase_each_other_are_kept_up_to_there() -> None:
    """The last moment never settles: it is played, and nothing is expected of it."""
    text = VEHICLE.replace("one_shot(true, 3 s) or", "not previous(pump) or")
    assert kept(text).endswith("    at 1 s  door is open\n    until 1 s\n")
