"""`tidy` as it is called: what it writes, what it only shows, and how it ends."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest

from logiccheck.cli.main import main
from logiccheck.lang.tidy import tidied as tidying
from logiccheck.render.as_json import read
from tests.calling import EXAMPLES, call

UNTIDY = "world\n  key off|run\n  door closed | open\n"
TIDY = "world\n    key   off | run\n    door  closed | open\n"
DIFF = """\
--- van.circuit
+++ van.circuit
@@ -1,3 +1,3 @@
 world
-  key off|run
-  door closed | open
+    key   off | run
+    door  closed | open
"""


@pytest.fixture
def van(tmp_path: Path) -> Path:
    """A file that is not laid out as it should be."""
    path = tmp_path / "van.circuit"
    path.write_text(UNTIDY, encoding="utf-8")
    return path


def test_it_writes_what_changes(van: Path) -> None:
    """The file is written, its mode kept and nothing left beside it; what is tidy is not written again."""
    van.chmod(0o640)
    (van.parent / "tidy.circuit").write_text(TIDY, encoding="utf-8")
    os.utime(van.parent / "tidy.circuit", (1, 1))
    done = call("tidy", "van.circuit", "tidy.circuit", cwd=van.parent)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "Files laid out anew: 1 of 2.\n\nvan.circuit: laid out anew\n"
    assert van.read_text(encoding="utf-8") == TIDY
    if os.name == "posix":
        assert van.stat().st_mode & 0o777 == 0o640
    assert (van.parent / "tidy.circuit").stat().st_mtime == 1
    assert sorted(path.name for path in van.parent.iterdir()) == ["tidy.circuit", "van.circuit"]
    again = call("tidy", "van.circuit", "tidy.circuit", cwd=van.parent)
    assert (again.returncode, again.stdout) == (0, "Everything is laid out as it should be. Files: 2.\n")


def test_check(van: Path) -> None:
    """It names what would change, writes nothing, and ends with 1; all the examples are as they should be."""
    done = call("tidy", "--check", "van.circuit", cwd=van.parent)
    assert done.returncode == 1
    assert done.stdout == "Files that would be laid out anew: 1 of 1.\n\nvan.circuit: would be laid out anew\n"
    assert van.read_text(encoding="utf-8") == UNTIDY
    assert call("tidy", "--check", EXAMPLES, cwd=van.parent).returncode == 0


def test_diff(van: Path) -> None:
    """It is the diff and nothing else, and writes nothing."""
    done = call("tidy", "--diff", "van.circuit", cwd=van.parent)
    assert (done.returncode, done.stdout, done.stderr) == (0, DIFF, "")
    assert van.read_text(encoding="utf-8") == UNTIDY
    assert call("tidy", "--diff", "--check", "van.circuit", cwd=van.parent).returncode == 1


def test_diff_of_a_last_line_that_does_not_end(tmp_path: Path) -> None:
    """It says so as diffs do."""
    (tmp_path / "van.circuit").write_bytes(b"world")
    done = call("tidy", "--diff", "van.circuit", cwd=tmp_path)
    assert done.stdout.endswith("-world\n\\ No newline at end of file\n+world\n")


def test_json(van: Path) -> None:
    """The whole report, each file with its diff."""
    done = call("tidy", "--diff", "--json", "van.circuit", cwd=van.parent)
    assert json.loads(done.stdout)["report"]["tidied"] == [{"file": "van.circuit", "diff": DIFF}]
    assert read(done.stdout).tidied[0].diff == DIFF


def test_a_folder(van: Path) -> None:
    """All .circuit files in it, at any depth; one without any is told."""
    inner = van.parent / "more"
    inner.mkdir()
    (inner / "lights.circuit").write_text(UNTIDY, encoding="utf-8")
    done = call("tidy", "--check", ".", cwd=van.parent)
    assert done.stdout.splitlines()[2:] == [
        "more/lights.circuit: would be laid out anew",
        "van.circuit: would be laid out anew",
    ]
    empty = inner / "empty"
    empty.mkdir()
    nothing = call("tidy", "more/empty", cwd=van.parent)
    assert (nothing.returncode, nothing.stderr) == (2, "There is no .circuit file in more/empty.\n")


def test_mistakes(van: Path) -> None:
    """A file with mistakes is left alone and they are told; the others are written."""
    wrong = van.parent / "wrong.circuit"
    wrong.write_text("world\n  key off |\n", encoding="utf-8")
    done = call("tidy", "wrong.circuit", "van.circuit", "none.circuit", cwd=van.parent)
    assert done.returncode == 2
    assert done.stdout.startswith(
        "Files left alone because of their mistakes: 2 of 3. Files laid out anew: 1 of 3.\n\nmistake: "
    )
    assert "wrong.circuit:2" in done.stdout
    assert "none.circuit" in done.stdout
    assert wrong.read_text(encoding="utf-8") == "world\n  key off |\n"
    assert van.read_text(encoding="utf-8") == TIDY


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="who may write everywhere is refused nowhere")
def test_a_file_that_may_not_be_written(van: Path) -> None:
    """It is left, and why is said."""
    van.chmod(0o444)
    done = call("tidy", "van.circuit", cwd=van.parent)
    assert (done.returncode, done.stderr) == (2, "Cannot write van.circuit: Permission denied.\n")
    assert van.read_text(encoding="utf-8") == UNTIDY


def test_a_link_stays_a_link(van: Path) -> None:
    """What it leads to is written."""
    link = van.parent / "link.circuit"
    try:
        link.symlink_to(van)
    except OSError:
        pytest.skip("no links here")
    assert call("tidy", "link.circuit", cwd=van.parent).returncode == 0
    assert link.is_symlink()
    assert van.read_text(encoding="utf-8") == TIDY


def test_the_diff_is_one(van: Path) -> None:
    """`patch` makes of the file what `tidy` makes of it."""
    diff = call("tidy", "--diff", "van.circuit", cwd=van.parent).stdout
    try:
        subprocess.run(["patch", "-s", "-p0"], cwd=van.parent, input=diff, text=True, check=True)
    except FileNotFoundError:
        pytest.skip("no patch here")
    assert van.read_text(encoding="utf-8") == TIDY


@pytest.mark.our_bug
def test_what_would_say_something_else(
    van: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """That is our bug: the file is left alone, and what to send is said."""
    monkeypatch.setattr(tidying, "_text", lambda text, path: text.replace("run", "runs"))
    monkeypatch.chdir(van.parent)
    assert main(["tidy", "van.circuit"]) == 4
    told = capsys.readouterr().err
    assert "Left alone, because laid out anew it would not say the same: van.circuit." in told
    assert "Untrue: van.circuit would mean something else" in told
    assert van.read_text(encoding="utf-8") == UNTIDY
