"""Formats for machines from outside: JSON of every command, files that are new, and what stands on standard output."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
import xmlschema
from jsonschema import Draft4Validator, Draft202012Validator
from vcd.reader import TokenKind, tokenize

from logiccheck.cli.commands import COMMANDS
from logiccheck.render.as_json import read, schema
from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render
from logiccheck.report.report import Outcome
from tests.calling import EXAMPLES, call, environment
from tests.cli.test_interrupts import interrupted, whole
from tests.render.machines import SCHEMAS

VAN = EXAMPLES / "first-steps" / "van.circuit"
STATUS = {Outcome.MISTAKE: 2, Outcome.FAILS: 1, Outcome.OPEN: 3, Outcome.GOOD: 0}

CALLS: dict[str, tuple[tuple[str, ...], ...]] = {
    "check": (
        ("van.circuit",),
        ("van.circuit", "--only", "can_start"),
        ("van.circuit", "--only", "no"),
        ("wrong.circuit",),
    ),
    "recheck": (("van.certificate",), ("missing.certificate",), ("van.circuit",)),
    "play": (("van.circuit",), ("van.circuit", "arrival", "--table"), ("van.circuit", "no"), ("wrong.circuit",)),
    "show": (("van.circuit",), ("van.circuit", "fuel_pump"), ("van.circuit", "no"), ("wrong.circuit",)),
    "why": (
        ("van.circuit", "fuel_pump"),
        ("van.circuit", "fuel_pump", "--at", "12 s", "--deep"),
        ("van.circuit", "fuel_pump", "--story", "dead_engine_fuel"),
        ("van.circuit", "fuel_pump", "--when", "key is off, door is open"),
        ("van.circuit", "ignition", "--all-ways"),
        ("van.circuit", "ignition", "--all-ways", "--at", "1 s"),
        ("van.circuit", "no"),
        ("wrong.circuit", "fuel_pump"),
    ),
    "lint": (("van.circuit",), ("van.circuit", "--only", "W101"), ("van.circuit", "--only", "no"), ("wrong.circuit",)),
    "tour": (("van.circuit",), ("van.circuit", "--deep"), ("wrong.circuit",)),
    "currents": (("van.circuit", "--budget", "4", "--stories"), ("wrong.circuit",)),
    "parked": (("van.circuit",), ("wrong.circuit",)),
    "paths": (("van.circuit",), ("van.circuit", "wake"), ("van.circuit", "no"), ("wrong.circuit",)),
    "unguarded": (("van.circuit", "no"), ("wrong.circuit",)),
    "faults": (("van.circuit", "--only", "wake"), ("van.circuit", "--only", "no"), ("wrong.circuit",)),
    "tidy": (("van.circuit", "--check"), ("wrong.circuit", "--check"), ("nothing.circuit", "--check")),
    "about": ((), ("fails",), ("E301",), ("nothing-of-this-name",)),
    "begin": (("garage",), (".",)),
}
"""Calls of each command, good and bad. A new command needs `printed(report, arguments)` in its file and a row here."""


@pytest.fixture(scope="module")
def garage(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a vehicle, its certificate, and a file that has a mistake."""
    folder = tmp_path_factory.mktemp("garage")
    (folder / "van.circuit").write_bytes(VAN.read_bytes())
    text = VAN.read_text(encoding="utf-8").replace("when key is start", "when kee is start", 1)
    (folder / "wrong.circuit").write_text(text, encoding="utf-8")
    call("check", "van.circuit", "--edits", "0", "--certify", "van.certificate", cwd=folder)
    return folder


def test_every_command_is_called() -> None:
    """No command is left out below."""
    assert set(CALLS) == {command.name for command in COMMANDS}


@pytest.mark.parametrize(
    "arguments", [(name, *rest) for name, calls in CALLS.items() for rest in calls], ids=lambda call: " ".join(call)
)
def test_json_of_every_command(arguments: tuple[str, ...], garage: Path) -> None:
    """It meets the schema, has the same exit status, and reads as the same text."""
    if arguments == ("begin", "garage"):
        for path in (garage / "garage").glob("*"):
            path.unlink()
    as_json = call(*arguments, "--json", cwd=garage)
    if arguments == ("begin", "garage"):
        (garage / "garage" / "van.circuit").unlink()
    as_text = call(*arguments, cwd=garage)
    Draft202012Validator(json.loads(schema())).validate(json.loads(as_json.stdout))
    report = read(as_json.stdout)
    assert as_json.returncode == as_text.returncode == STATUS[report.outcome]
    text = render(report, Look(width=None, colour=False, ascii=False))
    if as_text.stdout:
        assert text == as_text.stdout
    else:
        assert text.strip() == as_text.stderr.strip().replace("\n", "?")


def test_the_schema_can_be_asked_for(tmp_path: Path) -> None:
    """The one that ships is printed, byte for byte."""
    done = call("about", "--schema", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, schema())


def run_of(path: Path) -> dict[str, Any]:
    """The run in a SARIF file."""
    log = json.loads(path.read_bytes())
    Draft4Validator(json.loads((SCHEMAS / "sarif-schema-2.1.0.json").read_bytes())).validate(log)
    found: dict[str, Any] = log["runs"][0]
    return found


def cases(text: str | bytes) -> dict[str, str]:
    """What became of each case of a JUnit file."""
    root = ElementTree.fromstring(text)
    xmlschema.XMLSchema(str(SCHEMAS / "junit-10.xsd")).validate(root)
    return {case.get("name", ""): case[0].tag if len(case) else "passed" for case in root.iter("testcase")}


def test_files_of_a_check(garage: Path, tmp_path: Path) -> None:
    """Both are written beside the report, which is the same as without them; the line of each stands where it is."""
    plain = call("check", "van.circuit", "--edits", "0", cwd=garage)
    both = ("--sarif", tmp_path / "van.sarif", "--junit", tmp_path / "van.xml")
    done = call("check", "van.circuit", "--edits", "0", *both, cwd=garage)
    assert (done.stdout, done.returncode) == (plain.stdout, 1)
    assert done.stderr.splitlines()[-2:] == [f"written: {tmp_path / 'van.sarif'}", f"written: {tmp_path / 'van.xml'}"]
    lines = (garage / "van.circuit").read_text(encoding="utf-8").splitlines()
    failing = [each for each in run_of(tmp_path / "van.sarif")["results"] if each["ruleId"] == "fails"]
    for result in failing:
        name = result["locations"][0]["logicalLocations"][0]["name"]
        assert name in lines[result["locations"][0]["physicalLocation"]["region"]["startLine"] - 1]
        for step in result["codeFlows"][0]["threadFlows"][0]["locations"]:
            region = step["location"]["physicalLocation"]["region"]
            if "endColumn" in region:
                marked = lines[region["startLine"] - 1][region["startColumn"] - 1 : region["endColumn"] - 1]
                assert marked == marked.strip() != ""
    assert len(failing) == 2
    found = cases((tmp_path / "van.xml").read_bytes())
    assert [name for name, tag in found.items() if tag == "failure"] == ["dead_engine_fuel", "no_flat_battery"]
    assert found["At 10 s: fuel_pump"] == found["At 10 s: not ignition"] == "passed"
    for name in ("van.sarif", "van.xml"):
        raw = (tmp_path / name).read_bytes()
        assert b"\r" not in raw
        assert raw.endswith(b"\n")


def test_files_of_a_file_with_mistakes(garage: Path, tmp_path: Path) -> None:
    """The mistakes stand in them; a run that checked nothing is not green."""
    done = call("check", "wrong.circuit", "--sarif", tmp_path / "a", "--junit", tmp_path / "b", cwd=garage)
    assert done.returncode == 2
    run = run_of(tmp_path / "a")
    assert run["invocations"][0]["executionSuccessful"] is False
    (result,) = run["results"]
    region = result["locations"][0]["physicalLocation"]["region"]
    line = (garage / "wrong.circuit").read_text(encoding="utf-8").splitlines()[region["startLine"] - 1]
    assert line[region["startColumn"] - 1 : region["endColumn"] - 1] == "kee"
    assert run["artifacts"][0]["location"]["uri"] == "wrong.circuit"
    assert list(cases((tmp_path / "b").read_bytes()).values()) == ["error"]


@pytest.mark.parametrize(
    ("command", "option"),
    [(("check", "van.circuit"), "--sarif"), (("check", "van.circuit"), "--junit"), (("play", "van.circuit"), "--vcd")],
)
def test_nothing_is_overwritten(command: tuple[str, ...], option: str, garage: Path, tmp_path: Path) -> None:
    """What is there stays, nothing is done, and that is said, with --json in a report."""
    there = tmp_path / "there"
    there.write_text("mine", encoding="utf-8")
    done = call(*command, option, there, cwd=garage)
    sentence = f"{there} is there already. Nothing was done; name another file."
    assert (done.returncode, done.stdout, done.stderr) == (2, "", f"{sentence}\n")
    done = call(*command, option, there, "--json", cwd=garage)
    assert (done.returncode, read(done.stdout).opening) == (2, sentence)
    assert there.read_text(encoding="utf-8") == "mine"
    missing = call(*command, option, tmp_path / "no" / "folder", cwd=garage)
    assert missing.returncode == 2
    assert (
        missing.stderr
        == f"{tmp_path / 'no' / 'folder'} cannot be written: there is no such folder. Nothing was done.\n"
    )


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_that_leads_nowhere_is_something_there(garage: Path, tmp_path: Path) -> None:
    """What it points to is not written."""
    (tmp_path / "link").symlink_to(tmp_path / "target")
    assert call("check", "van.circuit", "--edits", "0", "--sarif", tmp_path / "link", cwd=garage).returncode == 2
    assert not (tmp_path / "target").exists()


def test_standard_output_in_place_of_the_report(garage: Path) -> None:
    """Only the format stands there, with the exit status of the check."""
    sarif = call("check", "van.circuit", "--edits", "0", "--sarif", "-", cwd=garage)
    assert sarif.returncode == 1
    assert json.loads(sarif.stdout)["version"] == "2.1.0"
    junit = call("check", "van.circuit", "--edits", "0", "--junit", "-", cwd=garage)
    assert cases(junit.stdout)["no_flat_battery"] == "failure"
    vcd = call("play", "van.circuit", "--vcd", "-", cwd=garage)
    assert (vcd.returncode, vcd.stdout.split()[0]) == (0, "$version")


@pytest.mark.parametrize(
    ("options", "named"),
    [
        (("--sarif", "-", "--junit", "-"), "--sarif -, --junit -"),
        (("--json", "--sarif", "-"), "--sarif -, --json"),
    ],
)
def test_one_thing_on_standard_output(options: tuple[str, ...], named: str, garage: Path) -> None:
    """Two of them could be told apart by nobody."""
    done = call("check", "van.circuit", "--edits", "0", *options, cwd=garage)
    sentence = f"Only one of these can stand on standard output: {named}."
    assert done.returncode == 2
    assert sentence in (done.stderr + done.stdout)
    assert ("--json" in options) is (done.stdout != "")


def test_waveforms_of_a_scenario_and_of_a_saved_story(garage: Path, tmp_path: Path) -> None:
    """Both are played, and what is read back ends when they end."""
    done = call("play", "van.circuit", "arrival", "--vcd", tmp_path / "day.vcd", cwd=garage)
    assert done.returncode == 0
    tokens = [*tokenize(io.BytesIO((tmp_path / "day.vcd").read_bytes()))]
    names = {token.var.reference for token in tokens if token.kind is TokenKind.VAR}
    assert {"key", "engine", "box_supply", "hold", "powered", "fuel_pump"} <= names
    call("check", "van.circuit", "--edits", "0", "--save", tmp_path / "stories", cwd=garage)
    story = tmp_path / "stories" / "no_flat_battery.circuit"
    told = ("play", "van.circuit", "--scenario-file", story, "--vcd", tmp_path / "story.vcd")
    assert call(*told, cwd=garage).returncode == 1
    raw = (tmp_path / "story.vcd").read_bytes()
    assert raw.isascii()
    assert b"\r" not in raw
    times = [token.time_change for token in tokenize(io.BytesIO(raw)) if token.kind is TokenKind.CHANGE_TIME]
    assert times == sorted(set(times))
    assert times[-1] > 600_000_000


def test_waveforms_of_a_file_with_mistakes(garage: Path, tmp_path: Path) -> None:
    """Nothing was played, and so nothing is written."""
    done = call("play", "wrong.circuit", "--vcd", tmp_path / "out.vcd", cwd=garage)
    assert done.returncode == 2
    assert not (tmp_path / "out.vcd").exists()


def test_the_same_text_each_time(garage: Path) -> None:
    """Two checks of one file write the same formats, however many processes share the work."""
    for option in (("--json",), ("--sarif", "-"), ("--junit", "-")):
        runs = [call("check", "van.circuit", "--edits", "0", "--jobs", n, *option, cwd=garage).stdout for n in "12"]
        assert runs[0] == runs[1] != ""


def test_waveforms_are_of_one_scenario(tmp_path: Path) -> None:
    """Of several the name is asked for; the report is printed all the same."""
    boat = EXAMPLES / "relay-only" / "boat.circuit"
    done = call("play", boat, "--vcd", tmp_path / "out.vcd", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].startswith("Waveforms are those of one scenario. Name one of these: ")
    assert not (tmp_path / "out.vcd").exists()
    assert done.stdout


def test_json_on_a_terminal_that_speaks_something_else(tmp_path: Path) -> None:
    """Machines get UTF-8 and bare line ends whatever the code page of the console is."""
    text = VAN.read_text(encoding="utf-8").replace("Harbour coffee van", "Hafencafé → Süd", 1)
    (tmp_path / "van.circuit").write_text(text, encoding="utf-8")
    command = [sys.executable, "-m", "logiccheck", "play", "van.circuit", "--json"]
    settings = environment(PYTHONIOENCODING="cp1252")
    done = subprocess.run(command, cwd=tmp_path, env=settings, capture_output=True, check=False)
    assert done.returncode == 0
    assert "Hafencafé → Süd" in read(done.stdout.decode("utf-8")).opening
    assert b"\r" not in done.stdout


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent in another way there")
@pytest.mark.parametrize("part", [0.4, 0.6, 0.8, 0.95])
def test_interrupted_json_is_whole(part: float) -> None:
    """After Ctrl-C there is a whole report or none, and what is not decided in it is said to be open."""
    arguments = ("check", str(EXAMPLES / "coffee-van" / "van.circuit"), "--json")
    _, _, seconds = whole(arguments)
    status, out, err = interrupted(arguments, part * seconds)
    if out:
        report = read(out)
        assert status == STATUS[report.outcome] or (status, report.outcome) == (3, Outcome.GOOD)
    else:
        assert (status, "nothing is reported" in err) == (3, True)
