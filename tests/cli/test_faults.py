"""`faults`: what each single thing that breaks can let happen, as a user sees it."""

from __future__ import annotations

import csv
import io
import json
import sys
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call
from tests.cli.test_interrupts import interrupted

BENCH = """\
vehicle "Bench"
world
    key       off | run
    door      contact
harness
    source plus
    wire key_wire   from plus when key is run
    wire door_wire  from plus when door
    wire wake
    diode key_wire -> wake
    diode door_wire -> wake
controller "Box" powered by wake
    sense key_on   from key_wire live
    output ignition when key_on
requirements
    danger    spark   never ignition while key is off
    function  starts  possible ignition
"""


def said(folder: Path, *options: str, status: int, text: str = BENCH) -> list[str]:
    """What is said about the vehicle."""
    (folder / "bench.circuit").write_text(text)
    done = call("faults", "bench.circuit", *options, cwd=folder)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout.splitlines()


def test_one_is_enough(tmp_path: Path) -> None:
    """Status 1; by requirement, by part, with cautions."""
    lines = said(tmp_path, status=1)
    assert lines[0].startswith("Bench: Single faults that can let something dangerous happen: 5 of ")
    at = lines.index("DANGER  spark")
    assert lines[at + 3] == "  Single faults with which it fails: 5. Hidden: 5."
    assert "  - diode key_wire -> wake shorted: from the start or later; hidden" in lines
    assert "  diode key_wire -> wake, diode  [bench.circuit:10]" in lines
    assert "  - Before you touch copper, disconnect the battery." in lines
    assert lines[-1].endswith(": one fault is enough for danger")


def test_only_some(tmp_path: Path) -> None:
    """A fault by its id, all of a part, one requirement."""
    lines = said(tmp_path, "--only", "key_on", "--only", "wake open", "--requirement", "starts", status=0)
    assert lines[0] == (
        "Bench: Single faults that can let something dangerous happen: 0 of 4. "
        "But no requirement of yours that guards against danger to people was asked."
    )
    assert "  - key_on dead: from the start; hidden" in lines
    assert lines[-1].endswith(
        "function 3, nothing fails 1, not all decided 0, hidden of all 4: danger was not asked about"
    )


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--only", "key_won"), "There is no fault or part named key_won. Did you mean key_on?"),
        (("--requirement", "sparc"), "There is no requirement named sparc. Did you mean spark?"),
    ],
)
def test_no_such_thing(tmp_path: Path, options: tuple[str, ...], told: str) -> None:
    """Status 2, and what may be meant."""
    assert said(tmp_path, *options, status=2) == [told]


def test_one_by_one_says_the_same(tmp_path: Path) -> None:
    """What was proved of other faults only saves time."""
    assert said(tmp_path, "--one-by-one", status=1) == said(tmp_path, status=1)


def test_stories(tmp_path: Path) -> None:
    """Each whole, under the number that stands beside its fault."""
    lines = said(tmp_path, "--stories", "--requirement", "spark", status=1)
    assert "  - diode key_wire -> wake shorted [3]: from the start or later; hidden" in lines
    assert "Story 3: spark fails with diode key_wire -> wake shorted, from the start or later" in lines


def test_tables(tmp_path: Path) -> None:
    """CSV and HTML in new files, which are never overwritten; one of them on standard output in place of the report."""
    (tmp_path / "bench.circuit").write_text(BENCH)
    done = call("faults", "bench.circuit", "--csv", "f.csv", "--html", "f.html", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stderr.splitlines() == ["written: f.csv", "written: f.html"]
    heads, *rows = csv.reader(io.StringIO((tmp_path / "f.csv").read_text(encoding="utf-8"), newline=""))
    assert heads[0] == "part"
    assert ["key_on", "dead"] in [[row[0], row[4]] for row in rows]
    assert (tmp_path / "f.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>\n")
    again = call("faults", "bench.circuit", "--csv", "f.csv", cwd=tmp_path)
    assert again.returncode == 2
    assert "f.csv is there already." in again.stderr
    out = call("faults", "bench.circuit", "--only", "wake", "--csv", "-", cwd=tmp_path)
    assert out.stdout.startswith("part,label,")


def test_as_json(tmp_path: Path) -> None:
    """The whole report."""
    (tmp_path / "bench.circuit").write_text(BENCH)
    done = call("faults", "bench.circuit", "--only", "wake", "--json", cwd=tmp_path)
    part = json.loads(done.stdout)["report"]["faults"]
    assert [each["mode"] for each in part["effects"]] == ["open", "live", "grounded"]


def test_nothing_is_proved(tmp_path: Path) -> None:
    """There is nothing to ask: status 1, and where to look."""
    lines = said(
        tmp_path,
        status=1,
        text=BENCH.replace("never ignition while key is off", "never ignition").replace(
            "    function  starts  possible ignition\n", ""
        ),
    )
    assert lines[0].startswith("No requirement was proved when nothing is broken")


def test_no_time(tmp_path: Path) -> None:
    """What is not decided is said, with status 3, and never counts as proved."""
    lines = said(tmp_path, "--budget", "0.000001", status=3)
    assert "one fault is enough" not in lines[-1]


def test_short_circuits_alone(tmp_path: Path) -> None:
    """What is asked of every vehicle has a name, too; a wire that is itself shorted is listed, and no danger."""
    lines = said(tmp_path, "--requirement", "no_short_circuit", "--only", "key_wire", status=0)
    assert "  - key_wire grounded: from the start or later; hidden" in lines
    assert "short circuit 1" in lines[-1]


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent in another way there")
@pytest.mark.parametrize("after", [0.3, 4.0])
def test_interrupted(after: float) -> None:
    """What was found is reported, and said to be incomplete; never a traceback, never a wrong success."""
    status, out, err = interrupted(("faults", str(EXAMPLES / "day-boat" / "boat.circuit")), after)
    assert status == 3 or (status == 1 and "fault is enough" in out), out[-2000:]
    assert "Traceback" not in err
    assert out == "" or "nterrupted" in out


WINCH = """\
vehicle "Winch"
world
    up    contact
    stop  contact
harness
    source plus
    relay kp coil up and not stop supply plus
    wire motor from plus when kp
    wire lamp_wire from plus when up
requirements
    danger stops never motor while stop
    function lit always lamp_wire while up
electrics
    tell_tale not lamp_wire "Lamp out" while up within 1 s
    tell_tale plus "Ready" within 1 s
    tell_tale up "Up lamp" while plus within 1 s
"""
COILS = "Not tried, that these stick where the coil of a relay names them: up (coil of kp); stop (coil of kp)."


def test_what_no_proof_is_about(tmp_path: Path) -> None:
    """Not all faults were asked; switches in coils are none; a tell-tale shows a fault only in its `while`."""
    lines = said(tmp_path, "--only", "kp dead", status=0, text=WINCH)
    assert "Proved with each single fault that was tried: stops, lit, no_short_circuit." in lines
    assert any(line.startswith(COILS) for line in lines)
    assert "These come on in time with nothing broken, too, and so count as a sign of no fault: Ready." in lines
    assert (
        "These can be on with nothing broken, too, so one that is on need not be taken for a fault: Up lamp." in lines
    )
    text = " ".join(" ".join(said(tmp_path, status=1, text=WINCH)).split())
    assert "noticed while up: Lamp out within 1 s" in text
    whole = WINCH.replace("coil up and not stop", "coil enable").replace(
        "    relay", "    wire enable from plus when up and not stop\n    relay"
    )
    assert not any(line.startswith("Not tried") for line in said(tmp_path, status=1, text=whole))


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("stop", "No fault of stop can be tried: it stands in the coil of kp."),
        ("open", "open is a way of failing: --only takes that together with --sets alone."),
    ],
)
def test_what_only_cannot_name(tmp_path: Path, name: str, told: str) -> None:
    """Status 2, and why."""
    [line] = said(tmp_path, "--only", name, status=2, text=WINCH)
    assert line.startswith(told)


BRIDGE = """vehicle "Winch"
world
    up    contact
    stop  contact
harness
    source plus
    relay kp coil up and not stop supply plus
    relay kg coil up and not stop supply plus
    wire motor_plus   from plus  when kp
    wire motor_minus  to ground  when kg
requirements
    danger stops never motor_plus and motor_minus is grounded while stop
"""


def test_what_was_not_tried_is_no_success(tmp_path: Path) -> None:
    """A stop button that sticks in both coils would be danger; no fault that was tried is. With sets it is the same."""
    told = "Not tried, for they stand in coils of relays: 2."
    lines = said(tmp_path, status=3, text=BRIDGE)
    assert lines[0] == f"Winch: Single faults that can let something dangerous happen: 0 of 12. {told}"
    assert lines[-1].endswith(": not all tried")
    lines = said(tmp_path, "--sets", "1", status=3, text=BRIDGE)
    assert lines[0].endswith(told)
    assert lines[-1].endswith(": not all tried")
