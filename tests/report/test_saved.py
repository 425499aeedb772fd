"""A story as a file: it reads as a scenario, names what hands do, and wants what was required."""

from __future__ import annotations

from logiccheck.engine.check import check_program
from logiccheck.report.saved import saved
from tests.report.vehicles import loaded

RULES = "    rule prime = one_shot(key_on, 3 s)\n    output pump when prime or cranking\n"


def text(rules: str, requirement: str) -> str:
    """The text of the only story."""
    found = loaded(rules, requirement)
    assert found.program is not None
    (story,) = saved(found.program, check_program(found.program), found.texts)
    return story.text


def test_a_saved_story() -> None:
    """Every line of it."""
    assert (
        text(RULES, '    danger a "No fuel" never pump while key is off\n')
        == """\
language 1

# How a fails: No fuel
# never pump while key is off
# A story that logiccheck found in bench.circuit. Play it again, also after changing it or the rules:
#   logiccheck play bench.circuit --scenario-file a.circuit

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
