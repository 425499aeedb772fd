"""Files and folders as they are: odd names, odd encodings, links, no rights; and two runs side by side."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call, environment
from tests.cli.test_check import FAILS, PROVED, vehicle

VAN = EXAMPLES / "first-steps" / "van.circuit"
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="there are no such files there")
ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def first_mistake(out: str) -> str:
    """The first sentence of a report of mistakes."""
    return next(line for line in out.splitlines() if line.startswith("mistake: ")).removeprefix("mistake: ")


@pytest.mark.parametrize("name", ["two words", "\u6cf5 \u00fc", "a#b", "50%", "it's", "[x]*?"])
def test_names_of_files_and_folders(name: str, tmp_path: Path) -> None:
    """Any name: the report is that of the file, the story is written and plays again."""
    folder = tmp_path / name
    folder.mkdir()
    path = vehicle(folder, FAILS).rename(folder / f"{name}.circuit")
    done = call("check", path, "--save", folder / "stories", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    assert "FAILS  b" in done.stdout
    again = call("play", path, "--scenario-file", folder / "stories" / "b.circuit", cwd=tmp_path)
    assert again.returncode == 1
    assert "BREAKS WHAT IS REQUIRED" in again.stdout


@POSIX
def test_a_name_that_is_no_text(tmp_path: Path) -> None:
    """Bytes that are no letters stand in a name: it is read all the same, also into a story and a certificate."""
    name = os.fsdecode(b"\xff.circuit")
    try:
        vehicle(tmp_path, PROVED + FAILS).rename(tmp_path / name)
    except OSError:
        pytest.skip("this file system takes no such name")
    done = call("check", name, "--save", "stories", "--certify", "proofs.json", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    assert "our bug" not in done.stderr
    assert (tmp_path / "stories" / "b.circuit").exists()
    assert (tmp_path / "proofs.json").exists()


@pytest.mark.parametrize(
    ("encoding", "said"),
    [
        ("utf-16", "`bench.circuit` is not text in UTF-8; it seems to be UTF-16."),
        ("utf-16-le", "`bench.circuit` is not text in UTF-8; it seems to be UTF-16."),
        ("utf-32", "`bench.circuit` is not text in UTF-8; it seems to be UTF-32."),
        (
            "latin-1",
            "`bench.circuit` is not text in UTF-8: in line 3 stands a byte that belongs to no letter "
            "(byte 41 of the file, FC in hexadecimal).",
        ),
    ],
)
def test_other_encodings(encoding: str, said: str, tmp_path: Path) -> None:
    """What the file seems to be, or the first byte and its line."""
    path = vehicle(tmp_path, PROVED)
    path.write_bytes(path.read_text(encoding="utf-8").replace('"Key"', '"Schl\u00fcssel"').encode(encoding))
    done = call("check", path.name, cwd=tmp_path)
    assert done.returncode == 2
    assert first_mistake(done.stdout) == said
    assert "Save it again with the encoding UTF-8" in done.stdout


def test_line_ends_of_other_machines(tmp_path: Path) -> None:
    """A mark at the begin and line ends of two characters change nothing but the sum of the file."""
    path = vehicle(tmp_path, PROVED + FAILS)
    plain = call("check", path.name, cwd=tmp_path).stdout
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    other = call("check", path.name, cwd=tmp_path).stdout
    assert [line for line in plain.splitlines() if not line.startswith("read: ")] == [
        line for line in other.splitlines() if not line.startswith("read: ")
    ]


@POSIX
def test_links(tmp_path: Path) -> None:
    """The main file may be a link to anywhere; a used one may not lead out; a circle of links is told."""
    folder = tmp_path / "van"
    folder.mkdir()
    (folder / "link.circuit").symlink_to(vehicle(tmp_path, PROVED))
    assert call("check", "van/link.circuit", cwd=tmp_path).returncode == 0
    (folder / "loop.circuit").symlink_to("loop.circuit")
    done = call("check", "van/loop.circuit", cwd=tmp_path)
    assert first_mistake(done.stdout) == "`van/loop.circuit` cannot be read: its links lead in a circle."
    (tmp_path / "lamps.circuit").write_text("world\n    lamp contact\n", encoding="utf-8")
    (folder / "lamps.circuit").symlink_to(tmp_path / "lamps.circuit")
    vehicle(folder, PROVED, more='use "lamps.circuit"\n')
    done = call("check", "van/bench.circuit", cwd=tmp_path)
    assert done.returncode == 2
    assert "it is a link that leads out of the folder of the main file" in first_mistake(done.stdout)


def test_files_that_use_each_other(tmp_path: Path) -> None:
    """The circle is shown, and the line to remove."""
    vehicle(tmp_path, PROVED, more='use "a.circuit"\n')
    (tmp_path / "a.circuit").write_text('use "bench.circuit"\n', encoding="utf-8")
    done = call("check", "bench.circuit", cwd=tmp_path)
    assert done.returncode == 2
    assert first_mistake(done.stdout) == "These files use each other: bench.circuit -> a.circuit -> bench.circuit."


@POSIX
@pytest.mark.skipif(ROOT, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written(tmp_path: Path) -> None:
    """The report is printed, and what could not be written is said."""
    path = vehicle(tmp_path, FAILS)
    tmp_path.chmod(0o500)
    try:
        done = call("check", path, "--save", tmp_path / "stories", cwd=tmp_path)
    finally:
        tmp_path.chmod(0o700)
    assert done.returncode == 2
    assert "NOT SAFE TO LOAD" in done.stdout
    assert done.stderr == f"Cannot write {tmp_path / 'stories'}: Permission denied.\n"


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="there is no folder in which nobody can write")
def test_a_folder_in_which_nobody_can_write(tmp_path: Path) -> None:
    """The same where not even root may."""
    done = call("check", vehicle(tmp_path, FAILS), "--save", "/proc/stories", cwd=tmp_path)
    assert done.returncode == 2
    assert "NOT SAFE TO LOAD" in done.stdout
    assert done.stderr == "Cannot write /proc/stories: No such file or directory.\n"
    begun = call("begin", "/proc/garage", cwd=tmp_path)
    assert (begun.returncode, begun.stderr) == (2, "Cannot write /proc/garage: No such file or directory.\n")


@POSIX
@pytest.mark.parametrize(
    ("arguments", "files"),
    [
        (["check", "bench.circuit", "--save", "new"], ["new/b.circuit"]),
        (["check", "bench.circuit", "--certify", "new.json"], ["new.json"]),
        (["begin", "new"], ["new/van.circuit"]),
    ],
)
def test_a_disk_that_fills_up(arguments: list[str], files: list[str], tmp_path: Path) -> None:
    """No half of a file stays; it is named, and the report is printed all the same."""
    import resource

    vehicle(tmp_path, PROVED + FAILS)
    done = subprocess.run(
        [sys.executable, "-m", "logiccheck", *arguments],
        cwd=tmp_path,
        env=environment(PYTHONDONTWRITEBYTECODE="1"),
        capture_output=True,
        encoding="utf-8",
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (50, 50)),
        timeout=300,
        check=False,
    )
    assert done.returncode == 2, done.stderr
    assert done.stderr == f"Cannot write {Path(files[0])}: File too large.\n"
    assert ("NOT SAFE TO LOAD" in done.stdout) == (arguments[0] == "check")
    assert not (tmp_path / files[0]).exists()


def test_two_runs_at_the_same_time(tmp_path: Path) -> None:
    """Each reports as if it were alone, and the same story is written once."""
    path = vehicle(tmp_path, PROVED + FAILS)
    command = [sys.executable, "-m", "logiccheck", "check", path.name, "--save", "stories"]
    runs = [
        subprocess.Popen(command, cwd=tmp_path, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        for _ in range(4)
    ]
    told = [run.communicate(timeout=300) for run in runs]
    assert {run.returncode for run in runs} == {1}
    assert len(set(told)) == 1
    assert [each.name for each in (tmp_path / "stories").iterdir()] == ["b.circuit"]
    left = {each.name for each in tmp_path.iterdir()}
    assert left == {"bench.circuit", "stories"}


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full device")
@pytest.mark.parametrize(
    ("arguments", "status"),
    [(["about", "nothing"], 2), (["check", "x", "--bugdet"], 2), (["check", str(VAN), "--save", "/proc/x"], 2)],
)
def test_errors_that_nobody_can_take(arguments: list[str], status: int, tmp_path: Path) -> None:
    """Where standard error takes nothing, the exit status says the same as ever."""
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "logiccheck", *arguments]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment(), stdout=subprocess.PIPE, stderr=full, timeout=300, check=False
        )
    assert done.returncode == status


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full device")
@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"]])
def test_help_that_nobody_can_take(arguments: list[str], tmp_path: Path) -> None:
    """Help that did not reach anybody is no success."""
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "logiccheck", *arguments]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment(), stdout=full, stderr=subprocess.PIPE, timeout=300, check=False
        )
    assert (done.returncode, done.stderr) == (3, b"Cannot write the report: No space left on device.\n")


@POSIX
@pytest.mark.parametrize("columns", ["1", "20", "0", "many"])
def test_narrow_terminals(columns: str, tmp_path: Path) -> None:
    """However narrow, all words are there, in their order."""
    import pty

    ours, theirs = pty.openpty()
    command = (
        [sys.executable, "-m", "logiccheck", "about", "no-case"],
        [sys.executable, "-m", "logiccheck", "show", str(VAN)],
    )
    for each in command:
        process = subprocess.Popen(
            each, cwd=tmp_path, env=environment(COLUMNS=columns, TERM="dumb"), stdout=theirs, stderr=subprocess.PIPE
        )
        output = b""
        while process.poll() is None or select_ready(ours):
            if select_ready(ours):
                output += os.read(ours, 65536)
        assert process.returncode == 0
        assert process.stderr is not None
        assert process.stderr.read() == b""
        process.stderr.close()
        assert b"\x1b" not in output
        piped = call(*each[3:], cwd=tmp_path).stdout
        assert "".join(output.decode().split()) == "".join(piped.split())
    os.close(theirs)
    os.close(ours)


def select_ready(descriptor: int) -> bool:
    """Whether something can be read at once."""
    import select

    return bool(select.select([descriptor], [], [], 0.05)[0])
