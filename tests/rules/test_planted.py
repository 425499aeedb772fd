"""What lint alone does not find of the planted mistakes, checklists do: without one requirement that was written by hand."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from logiccheck.base.assets import checklist_bytes
from logiccheck.engine.verdict import Kind
from logiccheck.report.report import Outcome, Report
from logiccheck.session.checking import check
from tests.calling import EXAMPLES
from tests.study.test_planted import MISSED, asks_nothing

VAN = EXAMPLES / "coffee-van" / "van.circuit"

ROLES = {
    "lighting": "hazard = hazard, left_lamps = left_lamps, right_lamps = right_lamps",
    "cooling": (
        "key_on = key in {run, start}, cranking = key is start, running = engine above idle_speed, "
        "fan = radiator_fan, hot = coolant above hot, cold = coolant below cool"
    ),
}
ASKED = {"lighting": {"hazard_flashes"}, "cooling": {"fan_cools", "cold_spared"}}
"""What is asked of the van; the rest is waived, for it would repeat the van's own requirements or takes more roles."""

FOUND = {
    "after-you": set[str](),  # that it chases itself blocks them all
    "backward-threshold": {"cooling_fan_cools", "cooling_cold_spared"},
    "sleeping-hazards": {"lighting_hazard_flashes"},
    "starter-in-gear": {"starting_no_start_in_gear"},
    "wrong-dominance": {"starting_crash_cuts"},
}
"""Of each mistake, which requirements of checklists fail."""


def uses() -> str:
    """The lines that use both checklists."""
    return "".join(f"use checklist {name} with {', '.join(_bound(name))}\n" for name in ROLES)


def _bound(name: str) -> list[str]:
    text = (checklist_bytes(name) or b"").decode("utf-8")
    required = re.findall(r"^    (?:danger|damage|function) +(\w+)", text, flags=re.MULTILINE)
    waived = [f'waive {each} "Asked by hand."' for each in required if each not in ASKED[name]]
    return ["battery = battery is connected", ROLES[name], *waived]


def checked(path: Path) -> Report:
    """The file with checklists instead of requirements."""
    text = asks_nothing(path).replace("\nconstants\n", f"\n{uses()}\nconstants\n", 1)
    return check(path.name, lambda _: text.encode(), 60.0, (), lambda _: None).report


def test_the_van_as_it_is_meant_to_be() -> None:
    """It keeps all that is asked."""
    report = checked(VAN)
    assert report.outcome is Outcome.GOOD
    assert {"lighting_hazard_flashes", "cooling_fan_cools"} <= {part.name for part in report.verdicts}


def test_nothing_is_left_out() -> None:
    """All that lint misses."""
    assert sorted(FOUND) == sorted(MISSED)


@pytest.mark.parametrize("name", sorted(FOUND))
def test_a_planted_mistake(name: str) -> None:
    """Just what it breaks fails; where it chases itself, no requirement is green."""
    report = checked(EXAMPLES / "planted-mistakes" / f"{name}.circuit")
    assert report.outcome is Outcome.FAILS
    assert {part.name for part in report.verdicts if part.kind is Kind.FAILS} == FOUND[name]
    if not FOUND[name]:
        assert {part.kind for part in report.verdicts} == {Kind.BLOCKED}
