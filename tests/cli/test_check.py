"""`check` from outside: exit statuses, first and last lines, saved stories, files that cannot be read."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from tests.calling import call

HEAD = """\
vehicle "Test bench"
world
    key "Key" off | run
harness
    source plus
    wire box_supply from plus
    wire key_wire from plus when key is run
controller "Box" powered by box_supply
    sense key_on from key_wire live
    output pump "Pump" when {pump}
"""


def vehicle(folder: Path, requirements: str, pump: str = "key_on", more: str = "") -> Path:
    """A small vehicle with these requirements, in a file of its own."""
    path = folder / "bench.circuit"
    asked = f"requirements\n{requirements}" if requirements else ""
    path.write_text(HEAD.format(pump=pump) + asked + more, encoding="utf-8")
    return path


PROVED = "    danger a never pump while key is off\n"
FAILS = "    danger b never pump while key is run\n"
NO_CASE = "    danger c never pump while key is off and key is run\n"


@pytest.mark.parametrize(
    ("requirements", "status", "end"),
    [
        (PROVED, 0, "proved 1, fails 0, not decided 0, no case 0, blocked 0: all proved"),
        (PROVED + FAILS, 1, "proved 1, fails 1, not decided 0, no case 0, blocked 0: not safe to load"),
        (PROVED + NO_CASE, 1, "proved 1, fails 0, not decided 0, no case 1, blocked 0: not shown safe"),
        ("", 1, "proved 0, fails 0, not decided 0, no case 0, blocked 0: nothing was asked"),
        ("    danger a never nothing\n", 2, "mistakes 1: nothing was checked"),
    ],
)
def test_exit_status_and_last_line(requirements: str, status: int, end: str, tmp_path: Path) -> None:
    """The last line is the verdict with its counts, and the exit status agrees with it."""
    done = call("check", vehicle(tmp_path, requirements), cwd=tmp_path)
    assert done.returncode == status, done.stderr
    assert done.stdout.splitlines()[-1].startswith(end)


def test_an_expectation_not_met_fails_the_check(tmp_path: Path) -> None:
    """Scenarios of the file are played, too; one that goes otherwise is no success."""
    scenario = "scenario drive\n    at 1 s  key is run, expect not pump\n"
    done = call("check", vehicle(tmp_path, PROVED, more=scenario), cwd=tmp_path)
    assert done.returncode == 1
    assert "At 1 s NOT as expected: not pump" in done.stdout


def test_a_failing_requirement_is_told_in_full(tmp_path: Path) -> None:
    """In the user's words: name, guard, text, what went wrong, the story, the term that did it."""
    done = call("check", "bench.circuit", cwd=vehicle(tmp_path, FAILS).parent)
    for line in (
        "FAILS  b",
        "  never pump while key is run",
        "  guards against danger to people  [bench.circuit:12]",
        "  At 0 s this happens: pump, while key is run.",
        "  pump is on because key_on is on.",
        '    10 │     output pump "Pump" when key_on',
        "       │                             ^^^^^^",
    ):
        assert line in done.stdout.splitlines()


def test_only_some(tmp_path: Path) -> None:
    """What was left out is counted and never called proved."""
    done = call("check", vehicle(tmp_path, PROVED + FAILS), "--only", "a", cwd=tmp_path)
    assert done.returncode == 0
    assert "not checked 1" in done.stdout.splitlines()[-1]
    unknown = call("check", vehicle(tmp_path, PROVED), "--only", "aa", cwd=tmp_path)
    assert unknown.returncode == 2
    assert "There is no requirement named aa. Did you mean a?" in unknown.stdout


SHORT = """vehicle "Short"

world
    a contact
    b contact

harness
    source plus
    wire feed from plus when a
    wire earth to ground when b
    join feed with earth

requirements
    danger never_both never feed and not a
"""


def test_a_short_circuit_that_nobody_looks_for_is_named(tmp_path: Path) -> None:
    """With --only the requirement that nobody wrote is left out, counted, and said to be."""
    path = tmp_path / "short.circuit"
    path.write_text(SHORT, encoding="utf-8")
    whole = call("check", path, cwd=tmp_path)
    assert whole.returncode == 1
    assert "--only" not in whole.stdout
    some = call("check", path, "--only", "never_both", cwd=tmp_path)
    assert some.returncode == 0
    assert "not checked 1" in some.stdout.splitlines()[-1]
    assert "Not checked because of --only: whether a wire can be live and grounded at once." in some.stdout


def test_saved_stories_play_again(tmp_path: Path) -> None:
    """A saved story replays on the same file, and breaks the requirement until the rule is mended."""
    path = vehicle(tmp_path, FAILS)
    assert call("check", path, "--save", "stories", cwd=tmp_path).returncode == 1
    story = tmp_path / "stories" / "b.circuit"
    again = call("play", path, "--scenario-file", story, cwd=tmp_path)
    assert again.returncode == 1, again.stdout + again.stderr
    assert "BREAKS WHAT IS REQUIRED. Requirements broken: 1. Expectations met: 0 of 1." in again.stdout.splitlines()[0]
    assert "  BREAKS b: never pump while key is run" in again.stdout.splitlines()
    mended = call("play", vehicle(tmp_path, FAILS, pump="not key_on"), "--scenario-file", story, cwd=tmp_path)
    assert mended.returncode == 0, mended.stdout + mended.stderr


def test_saving_leaves_changed_stories_alone(tmp_path: Path) -> None:
    """A story that somebody has edited keeps its name; the same story again is not written twice."""
    path = vehicle(tmp_path, FAILS)
    for _ in range(2):
        call("check", path, "--save", "stories", cwd=tmp_path)
    story = tmp_path / "stories" / "b.circuit"
    assert [each.name for each in story.parent.iterdir()] == ["b.circuit"]
    story.write_text("mine", encoding="utf-8")
    done = call("check", path, "--save", "stories", cwd=tmp_path)
    assert done.stderr.splitlines()[-2] == f"story: {Path('stories') / 'b-2.circuit'}"
    assert done.stderr.splitlines()[-1].endswith(" --scenario-file stories/b-2.circuit")
    assert story.read_text(encoding="utf-8") == "mine"


def test_saving_where_nothing_can_be_written(tmp_path: Path) -> None:
    """The report is printed all the same, and the call has failed."""
    (tmp_path / "stories").write_text("", encoding="utf-8")
    done = call("check", vehicle(tmp_path, FAILS), "--save", "stories", cwd=tmp_path)
    assert done.returncode == 2
    assert "NOT SAFE TO LOAD" in done.stdout
    assert done.stderr == "Cannot write into stories: it is there already, and is no folder.\n"


def test_saving_where_there_is_nothing_to_save(tmp_path: Path) -> None:
    """No folder is made, and it is said that there is no story; after a mistake not even that."""
    done = call("check", vehicle(tmp_path, PROVED), "--save", "stories", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "There is no story to keep; nothing was written.\n")
    mistake = call("check", vehicle(tmp_path, PROVED), "--only", "nothing", "--save", "stories", cwd=tmp_path)
    assert (mistake.returncode, mistake.stderr) == (2, "")
    assert not (tmp_path / "stories").exists()


def test_names_of_files_that_need_care(tmp_path: Path) -> None:
    """What is printed to be typed can be typed; nothing in a name moves the cursor."""
    names = {
        "my van": '"my van.circuit"',
        "-x": "./-x.circuit",
        "\u00fcber": "\u00fcber.circuit",
        "$(x)": "'$(x).circuit'",
    }
    for stem, shown in names.items():
        path = vehicle(tmp_path, FAILS).rename(tmp_path / f"{stem}.circuit")
        done = call("check", f"./{path.name}", "--save", "stories", cwd=tmp_path)
        assert f"logiccheck check {shown} --save stories" in done.stdout
        assert f"logiccheck play {shown} --scenario-file stories/b" in done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="no file has such a name there")
def test_a_line_end_in_the_name_of_a_file(tmp_path: Path) -> None:
    """It breaks no line of the report, and the saved story can be read."""
    path = vehicle(tmp_path, FAILS).rename(tmp_path / "two\nlines\x1b[2J.circuit")
    done = call("check", path.name, "--save", "stories", cwd=tmp_path)
    assert "\x1b" not in done.stdout
    assert "[two?lines?[2J.circuit:" in done.stdout
    assert call("play", path.name, "--scenario-file", "stories/b.circuit", cwd=tmp_path).returncode == 1


@pytest.mark.parametrize("budget", ["0", "-1", "nan", "inf", "soon", ""])
def test_a_budget_that_is_none(budget: str, tmp_path: Path) -> None:
    """What is meant, and an example to type."""
    done = call("check", vehicle(tmp_path, PROVED), f"--budget={budget}", cwd=tmp_path)
    assert done.returncode == 2
    meant = f"a number of seconds above 0 is meant, for example 30, and not '{budget}'"
    assert done.stderr.splitlines()[-1] == f"logiccheck check: error: argument --budget: {meant}"


@pytest.mark.parametrize("arguments", [["check"], ["chek", "x"], ["check", "x", "--budget", "0"], []])
def test_a_mistaken_call(arguments: list[str], tmp_path: Path) -> None:
    """A call that means nothing ends with 2."""
    assert call(*arguments, cwd=tmp_path).returncode == 2


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    """Missing, a folder, not text, too large: a sentence each, status 2, no traceback."""
    (tmp_path / "folder.circuit").mkdir()
    (tmp_path / "bytes.circuit").write_bytes(b"\xff\xfe\x00vehicle\x81")
    (tmp_path / "large.circuit").write_bytes(b"# " + b"x" * 2_000_000)
    (tmp_path / "empty.circuit").write_bytes(b"")
    for name in ("missing", "folder", "bytes", "large", "empty"):
        done = call("check", f"{name}.circuit", cwd=tmp_path)
        assert done.returncode == 2, name
        assert "Traceback" not in done.stderr
        assert "our bug" not in done.stderr, done.stderr
        assert f"{name}.circuit: CANNOT BE READ AS IT STANDS" in done.stdout.splitlines()[0]


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are another matter there")
def test_a_file_without_permission(tmp_path: Path) -> None:
    """A file that may not be read is a sentence; root may read everything, and then it is an empty file."""
    path = tmp_path / "closed.circuit"
    path.write_text("", encoding="utf-8")
    path.chmod(0)
    done = call("check", path.name, cwd=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="there are no named pipes there")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """Nobody writes to it: reading it would never end. The same for a pipe that a file uses."""
    os.mkfifo(tmp_path / "pipe.circuit")
    vehicle(tmp_path, PROVED, more='use "pipe.circuit"\n')
    for file in ("pipe.circuit", "bench.circuit"):
        done = call("check", file, cwd=tmp_path)
        assert done.returncode == 2
        assert "`pipe.circuit` cannot be read: it is a pipe or a device, not a file." in done.stdout
