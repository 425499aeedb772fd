"""Requirements of a checklist that are waived: not asked, and in every report with their reason."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

from tests.calling import call
from tests.cli.test_check import HEAD

REASON = "A bench has no such thing."
ASKED = "no_spark_without_key"
WAIVED = (
    "no_start_in_gear", "no_start_without_key", "no_fuel_without_key", "no_fuel_standing_still", "crash_cuts",
    "no_start_into_running", "starter_rests", "spark_while_cranking",
)  # fmt: skip
USE = "use checklist starting with\n    ignition = pump,\n    key_on = key is run,\n" + ",\n".join(
    f'    waive {name} "{REASON}"' for name in WAIVED
)


def bench(folder: Path, pump: str = "key_on") -> Path:
    """A vehicle that asks one requirement of the checklist."""
    path = folder / "bench.circuit"
    path.write_text(f"{HEAD.format(pump=pump)}{USE}\n", encoding="utf-8")
    return path


def test_it_is_said_in_text(tmp_path: Path) -> None:
    """First and last line count it, and each stands with its reason and its place; the rest is proved."""
    done = call("check", bench(tmp_path).name, cwd=tmp_path)
    lines = done.stdout.splitlines()
    assert done.returncode == 0, done.stdout + done.stderr
    assert lines[0].endswith("1 of 1. Waived: 8.")
    assert lines[-1] == (
        "proved 1, fails 0, not decided 0, no case 0, blocked 0, waived 8: "
        "what was checked is proved, within what is given and the limits above"
    )
    at = lines.index("Waived: requirements of checklists that were not asked")
    assert lines[at + 1 : at + 3] == [
        "  starting_no_start_in_gear  never starter while not gear_safe",
        f"    Not asked, because it is waived: {REASON}  [bench.circuit:14]",
    ]
    assert [line for line in lines[at + 1 : at + 17] if REASON in line] == lines[at + 2 : at + 18 : 2]


def test_a_failure_is_a_failure_all_the_same(tmp_path: Path) -> None:
    """What is waived hides nothing of what is asked."""
    done = call("check", bench(tmp_path, "not key_on"), "--edits", "0", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout.splitlines()[0].endswith("NOT SAFE TO LOAD. Requirements that fail: 1 of 1. Waived: 8.")


def test_it_stands_in_every_format(tmp_path: Path) -> None:
    """JSON, SARIF and JUnit XML: shown, suppressed, skipped; each time with the reason."""
    file = bench(tmp_path)
    done = call("check", file, "--json", "--sarif", "s.json", "--junit", "j.xml", cwd=tmp_path)
    report = json.loads(done.stdout)["report"]
    assert [part["name"] for part in report["waived"]] == [f"starting_{name}" for name in _in_order()]
    assert {part["reason"] for part in report["waived"]} == {REASON}
    assert f"starting_{ASKED}" in {part["name"] for part in report["verdicts"]}
    (run,) = json.loads((tmp_path / "s.json").read_text(encoding="utf-8"))["runs"]
    found = [result for result in run["results"] if result["ruleId"] == "waived"]
    assert [result["suppressions"][0]["justification"] for result in found] == [REASON] * 8
    assert {rule["name"] for rule in run["tool"]["driver"]["rules"] if rule["id"] == "waived"} == {"waived"}
    root = ElementTree.fromstring((tmp_path / "j.xml").read_text(encoding="utf-8"))
    skipped = root.findall(".//testcase/skipped")
    assert len(skipped) == 8
    assert all(REASON in (each.get("message") or "") for each in skipped)


def _in_order() -> list[str]:
    """As the checklist has them."""
    text = (Path(__file__).parents[2] / "rules" / "starting.circuit").read_text(encoding="utf-8")
    return sorted(WAIVED, key=lambda name: text.index(f" {name} "))


def test_a_call_for_it_says_why_it_is_not_asked(tmp_path: Path) -> None:
    """It is known, and still not asked."""
    file = bench(tmp_path)
    for words in (
        ("check", file, "--only", "starting_crash_cuts"),
        ("why", file, "pump", "--story", "starting_crash_cuts"),
    ):
        done = call(*words, cwd=tmp_path)
        assert done.returncode == 2
        assert done.stdout == f"The requirement starting_crash_cuts is not asked, because it is waived: {REASON}\n"
