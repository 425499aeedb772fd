"""A stranger's first file, typed from the reference alone: what it is told as it stands, and what holds once mended.

`camper-first.circuit` is unmended and stays so. `first-told.txt` is all that `check` prints about it.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Check
from logiccheck.study.simulate import simulate
from tests.calling import call
from tests.examples.reading import read

HERE = Path(__file__).parent
MENDED = (HERE / "camper.circuit").read_text(encoding="utf-8")

ASKED = (
    "step_while_driving", "step_not_alone", "both_ways", "motor_stalls_out", "motor_stalls_in", "join_cranking",
    "join_charged", "starter_drained", "sleeps", "pump_ends", "joins", "door_light", "light_stays", "fridge_charging",
    "fridge_runs", "pump_for_tap",
)  # fmt: skip

# In each of these the requirement said more or less than was meant: what is written now, and what was typed first.
FIRST_MEANT = {
    "step_while_driving": (" and powered for longer", " for longer"),
    "join_charged": ("engine at least 300 rpm", "engine above 300 rpm"),
    "joins": (
        " or engine below 300 rpm or voltage below drained or not powered or starter_battery is disconnected",
        "",
    ),
    "door_light": (" or cabin_door is closed or light_switch is not door or main_switch is off", ""),
    "light_stays": ("light and cabin_door is open calls for", "cabin_door becomes closed calls for"),
}


def test_the_first_file_is_told_this(tmp_path: Path) -> None:
    """Everything that is printed about the file as first typed, and nothing is checked."""
    shutil.copy(HERE / "camper-first.circuit", tmp_path)
    done = call("check", "camper-first.circuit", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == (HERE / "first-told.txt").read_text(encoding="utf-8")


def test_the_mended_file_is_proved() -> None:
    """Every requirement of the mended file holds, and what is given stands in no one's way."""
    check = check_program(read(MENDED), seconds_each=60)
    assert check.troubles == ()
    assert _verdicts(check) == dict.fromkeys(ASKED, "proved")


def test_what_was_meant_first_fails() -> None:
    """With the words of the first file the same requirements fail on the mended vehicle, each with a story."""
    text = MENDED
    for now, first in FIRST_MEANT.values():
        assert text.count(now) == 1
        text = text.replace(now, first)
    check = check_program(read(text), seconds_each=60, only=set(FIRST_MEANT))
    assert _verdicts(check) == dict.fromkeys(FIRST_MEANT, "fails")
    assert all(verdict.story is not None for verdict in check.verdicts)


@pytest.mark.parametrize("name", ["morning", "night"])
def test_the_scenarios_are_as_expected(name: str) -> None:
    """Both days go as written, within what is given."""
    program = read(MENDED)
    played = simulate(program, next(scenario for scenario in program.scenarios if scenario.name == name))
    assert [each.expectation.text for each in played.expectations if not each.held] == []
    assert played.warnings == ()


def _verdicts(check: Check) -> dict[str, str]:
    """The verdict of each requirement by its name."""
    return {verdict.requirement.name: verdict.kind.value for verdict in check.verdicts}
