"""`lint` from outside, and what `check` says of findings: exit statuses, first and last lines, formats."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from logiccheck.study.findings import MESSAGES
from tests.calling import EXAMPLES, call

HEAD = """\
vehicle "Test bench"
world
    key "Key" off | run
    door "Door" closed | open
harness
    source plus
    wire box_supply from plus
    wire key_wire from plus when key is run
    wire door_wire from plus when door is open
controller "Box" powered by box_supply
    sense key_on from key_wire live
    sense door_open from door_wire live
    output pump "Pump" when {pump}
requirements
    function can_pump possible pump
{more}"""

GOOD = "key_on and door_open"
NEVER = "    danger   a never key_on while not key_on\n    danger b never pump while key is off\n"


def vehicle(folder: Path, pump: str = GOOD, more: str = "") -> Path:
    """A small vehicle in a file of its own."""
    path = folder / "bench.circuit"
    path.write_text(HEAD.format(pump=pump, more=more), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("pump", "more", "status", "end"),
    [
        (GOOD, "", 0, "danger 0, damage 0, function 0, questions not decided 0: nothing found"),
        ("key_on", "", 1, "danger 0, damage 0, function 1, questions not decided 0: findings 1"),
        (GOOD, "    danger a never key_on while door_open\n", 1, "danger 1, damage 0, function 0, questions"),
        (GOOD, "    danger a never nothing\n", 2, "mistakes 1: nothing was checked"),
    ],
)
def test_exit_status_and_last_line(pump: str, more: str, status: int, end: str, tmp_path: Path) -> None:
    """Anything that is found is no success."""
    done = call("lint", vehicle(tmp_path, pump, more), cwd=tmp_path)
    assert done.returncode == status, done.stderr
    assert done.stdout.splitlines()[-1].startswith(end)


def test_a_finding_is_told_in_full(tmp_path: Path) -> None:
    """Sentence, line, what may come of it, what to do, where to read more."""
    done = call("lint", vehicle(tmp_path, "key_on").name, cwd=tmp_path)
    at = done.stdout.index("warning:")
    assert done.stdout[:at] == "Test bench: FINDINGS: 1.\n\n"
    assert done.stdout[at:].startswith(
        "warning: Nothing depends on the sense `door_open`.\n"
        "    bench.circuit:12:5\n"
        "    12 │     sense door_open from door_wire live\n"
        "  Something may not work as meant.\n"
        "  Use it where it was meant to be used, or take it out.\n"
        '  to accept it: unused-name door_open "REASON" by "NAME" on YYYY-MM-DD logic c6bd-e1ec\n'
        "  more: logiccheck about unused-name\n"
    )


def test_only_some_by_name_or_code(tmp_path: Path) -> None:
    """What is not asked for is not looked for."""
    file = vehicle(tmp_path, "key_on", "    danger a never key_on while not key_on\n")
    for named in ("unused-name", "W101", "w101", "UNUSED_NAME"):
        done = call("lint", file, "--only", named, cwd=tmp_path)
        assert (done.returncode, done.stdout.count("warning:")) == (1, 1), named
    done = call("lint", file, "--only", "small-fuse", cwd=tmp_path)
    assert done.returncode == 0


def test_a_finding_that_is_none(tmp_path: Path) -> None:
    """The near names are offered."""
    done = call("lint", vehicle(tmp_path), "--only", "unused-nam", cwd=tmp_path)
    assert done.returncode == 2
    assert "unused-name" in done.stdout


def test_without_time_it_is_not_decided(tmp_path: Path) -> None:
    """Nothing was found, and not everything was looked at: no success."""
    done = call("lint", EXAMPLES / "coffee-van" / "van.circuit", "--budget", "0.001", cwd=tmp_path)
    assert done.returncode == 3
    assert "NOTHING FOUND SO FAR" in done.stdout.splitlines()[0]
    assert done.stdout.splitlines()[-1].endswith(": not all decided")
    assert "The time for the lint ran out; --budget gives it more." in done.stdout


def test_json_sarif_and_junit(tmp_path: Path) -> None:
    """Every format has the finding, and what it rests on."""
    file = vehicle(tmp_path, "key_on")
    report = json.loads(call("lint", file, "--json", cwd=tmp_path).stdout)
    (notice,) = report["report"]["notices"]
    assert (notice["name"], notice["code"], notice["about"], notice["counts"]) == (
        "unused-name",
        "W101",
        ["door_open"],
        True,
    )
    assert call("lint", file, "--sarif", "out.sarif", "--junit", "out.xml", cwd=tmp_path).returncode == 1
    (result,) = json.loads((tmp_path / "out.sarif").read_text(encoding="utf-8"))["runs"][0]["results"]
    assert (result["ruleId"], result["level"], result["properties"]["about"]) == ("W101", "error", ["door_open"])
    junit = (tmp_path / "out.xml").read_text(encoding="utf-8")
    assert '<testcase classname="findings" name="unused-name door_open">' in junit
    assert 'failures="1"' in junit


def test_a_check_with_a_finding_of_danger_is_no_success(tmp_path: Path) -> None:
    """Though everything is proved; a finding about a function alone changes nothing."""
    done = call("check", vehicle(tmp_path, more=NEVER), cwd=tmp_path)
    assert done.returncode == 1
    assert "NOT SHOWN SAFE. Findings from which danger to people may come: 2." in done.stdout.splitlines()[0]
    assert done.stdout.splitlines()[-1].endswith("findings of danger 2: not shown safe")
    done = call("check", vehicle(tmp_path, "key_on"), cwd=tmp_path)
    assert done.returncode == 0
    assert "warning: Nothing depends on the sense `door_open`." in done.stdout
    assert "Findings of the lint: 1." in done.stdout


def test_a_check_without_lint(tmp_path: Path) -> None:
    """The text is still looked at, and what was not is said."""
    done = call("check", vehicle(tmp_path, "key_on"), "--lint", "0", cwd=tmp_path)
    assert done.returncode == 0
    assert "warning: Nothing depends on the sense `door_open`." in done.stdout
    assert "Findings that rest on what can happen were not looked for." in done.stdout


def test_a_danger_that_is_not_decided_is_no_success(tmp_path: Path) -> None:
    """What else is not decided leaves the check as it is; without any looking that is said in the last line."""
    fast = vehicle(tmp_path, "blink(key_on and door_open, on 60 ms, off 60 ms)")
    done = call("check", fast, "--lint", "0.001", cwd=tmp_path)
    assert done.returncode == 3
    assert "NOT SHOWN SAFE. Findings from which danger to people may come, not decided: 1." in done.stdout
    assert done.stdout.splitlines()[-1].endswith("findings of danger not decided 1: not shown safe")
    done = call("check", fast, "--lint", "0", cwd=tmp_path)
    assert done.returncode == 0
    assert "findings looked for in the text only: all proved" in done.stdout.splitlines()[-1]
    slow = vehicle(tmp_path, "blink(key_on and door_open, on 1 s, off 1 s)")
    done = call("check", slow, "--lint", "0.001", cwd=tmp_path)
    assert done.returncode == 0
    assert "Questions of the lint that were not decided" in done.stdout


def test_about_lists_and_explains_all_findings(tmp_path: Path) -> None:
    """By name and by code; the page begins with what is noticed on the vehicle."""
    listed = call("about", cwd=tmp_path).stdout.splitlines()
    assert {message.name for message in MESSAGES} <= set(listed)
    page = call("about", "W104", cwd=tmp_path).stdout
    assert page.startswith(
        "Nothing passes the diode (backward-diode, W104)\n\n"
        "One of several switches does not wake the box, though each of the others does.\n\n"
        "What it means:\n"
    )
    assert page.index("Write:") < page.index("Instead of:") < page.index("When to accept it:")


def test_fix_puts_spelling_and_layout_right(tmp_path: Path) -> None:
    """The diff is shown, the line ends are kept, and what was meant is looked at."""
    good = vehicle(tmp_path).read_text(encoding="utf-8")
    laid_out = tmp_path / "bench.circuit"
    call("tidy", laid_out.name, cwd=tmp_path)
    good = laid_out.read_bytes().decode()
    bad = good.replace("requirements", "requirments").replace("key_on and", "key_on   and").replace("\n", "\r\n")
    laid_out.write_bytes(bad.encode())
    done = call("lint", laid_out.name, "--fix", cwd=tmp_path)
    assert laid_out.read_bytes().decode() == good.replace("\n", "\r\n")
    assert done.returncode == 0, done.stdout
    assert "\n-requirments\n" in done.stdout
    assert "\n+requirements\n" in done.stdout
    assert "bench.circuit: spelling and layout put right" in done.stdout
    assert done.stdout.splitlines()[-1].endswith("nothing found")


def test_fix_leaves_logic_alone(tmp_path: Path) -> None:
    """What is found is found still, what cannot be read stays as it is, and nothing is written where nothing changes."""
    file = vehicle(tmp_path, "key_on")
    call("tidy", file.name, cwd=tmp_path)
    before = file.read_bytes(), file.stat().st_mtime_ns
    done = call("lint", file.name, "--fix", cwd=tmp_path)
    assert done.returncode == 1
    assert (file.read_bytes(), file.stat().st_mtime_ns) == before
    file.write_bytes(before[0].replace(b"possible pump", b"possible   nothing"))
    done = call("lint", file.name, "--fix", cwd=tmp_path)
    assert done.returncode == 2
    assert b"possible" in file.read_bytes()
    assert b"nothing" in file.read_bytes()


@pytest.mark.parametrize("file", ["coffee-van/van", "day-boat/boat", "relay-only/boat", "first-steps/van"])
def test_lint_is_silent_on_clean_examples(file: str, tmp_path: Path) -> None:
    """Nothing is found, and everything is decided."""
    done = call("lint", EXAMPLES / f"{file}.circuit", "--budget", "250", cwd=tmp_path)
    assert done.returncode == 0, done.stdout
    assert done.stdout.splitlines()[-1].endswith("questions not decided 0: nothing found")
