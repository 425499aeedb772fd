"""A story as a file: it reads as a scenario, names what hands do, and wants what was required."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.lang.load import Loaded, load
from logiccheck.lang.reading import Unreadable
from logiccheck.report.played import play_report
from logiccheck.report.report import Report
from logiccheck.report.saved import Saved, saved
from logiccheck.study.simulate import simulate
from tests.report.vehicles import loaded

RULES = "    rule prime = one_shot(key_on, 3 s)\n    output pump when prime or cranking\n"


def text(rules: str, requirement: str) -> str:
    """The text of the only story."""
    found = loaded(rules, requirement)
    assert found.program is not None
    (story,) = saved(found.program, check_program(found.program), found.texts)
    return story.text(f"stories/{story.name}")


def test_a_saved_story() -> None:
    """Every line of it."""
    assert (
        text(RULES, '    danger a "No fuel" never pump while key is off\n')
        == """\
language 1

# How a fails: No fuel
# never pump while key is off
# A story that logiccheck found in bench.circuit. Play it again, also after changing it or the rules:
#   logiccheck play bench.circuit --scenario-file stories/a.circuit

scenario a_story
    at first  key is off
    at 1 s  key is run
    at 2 s  key is off
    at 2 s  expect not ((pump) and (key is off))
    until 2 s
"""
    )


def test_durations_within_a_tolerance_are_kept() -> None:
    """A run that does not last its nominal time says how long it lasts."""
    rules = "    output pump when off_delay(key_on, 10 s +- 10 %)\n"
    story = text(rules, "    damage a never pump while key is off for longer than 10.5 s\n")
    assert "lasts 1" in story
    assert "expect" not in story


def replayed(found: Loaded, story: Saved) -> Report:
    """The saved story, read beside the files of its vehicle and played."""
    files = {**found.texts, story.name: story.text(story.name)}

    def read(path: str) -> bytes | Unreadable:
        return files[path].encode() if path in files else Unreadable.MISSING

    again = load("bench.circuit", read, (story.name,))
    assert again.program is not None, [diagnostic.sentence for diagnostic in again.diagnostics]
    (scenario,) = again.program.scenarios
    return play_report(again.program, again.files, [simulate(again.program, scenario)])


@pytest.mark.parametrize(
    "requirement",
    [
        "never pump while key is off",
        "never pump while key is off even for an instant",
        "always cranking while pump",
        "never pump for longer than 2 s",
        "never one_shot(door is open, 2 s) and pump",
        "never key becomes start",
        "never rises(pump)",
        "never previous(pump)",
        "never pump becomes off while on_delay(true, 10 s)",
        "door is open calls for pump no later than 2 s",
        "door becomes open calls for pump no later than 2 s, excused by key is start",
        "key is run calls for pump lasting 4 s, excused by key is off",
        "pump only after door is open",
        "pump only after key is run has lasted 1 s since door is closed",
        "pump waits for key is start",
        "pump waits for key is start after door becomes open",
    ],
)
def test_a_saved_story_breaks_the_requirement_again(requirement: str) -> None:
    """Whatever the form of the requirement, the file can be read, and playing it breaks what it was saved for."""
    found = loaded(RULES, f"    danger asked {requirement}\n")
    assert found.program is not None
    (story,) = saved(found.program, check_program(found.program), found.texts)
    report = replayed(found, story)
    assert [breach.title for breach in report.played[0].breaches] == [f"BREAKS asked: {requirement}"]
    assert report.closing.endswith("requirements broken 1: breaks what is required")


def test_a_short_circuit_is_seen_again() -> None:
    """What is required of every vehicle is judged, too, in whatever is played."""
    more = "harness\n    wire bare to ground when door is open\n    join bare with key_wire\n"
    found = loaded(RULES, "    function asked possible pump\n", more)
    assert found.program is not None
    stories = saved(found.program, check_program(found.program), found.texts)
    (story,) = [story for story in stories if story.name == "no_short_circuit.circuit"]
    (breach,) = replayed(found, story).played[0].breaches
    assert breach.title == "BREAKS no_short_circuit: never a wire both live and grounded"
    assert breach.sentence.endswith("these wires are live and grounded at once: key_wire, bare.")


def test_what_is_given_may_rule_a_scenario_out() -> None:
    """A requirement that is broken only where something given is broken before does not count."""
    rules = RULES + "given\n    never door is open and key is off\n"
    more = "scenario day\n    at 1 s  door is open\n    at 2 s  key is run\n    at 3 s  key is off\n    until 4 s\n"
    found = loaded(rules, "    danger asked never pump while key is off\n", more)
    assert found.program is not None
    report = play_report(found.program, found.files, [simulate(found.program, found.program.scenarios[0])])
    (breach,) = report.played[0].breaches
    assert breach.sentence.endswith("But what is given rules this scenario out.")
    assert report.outcome.value == "good"
