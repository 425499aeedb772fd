"""Pipes, colours and encodings: nothing is cut, nothing crashes, colours only where somebody looks."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call, environment

VAN = EXAMPLES / "first-steps" / "van.circuit"


def test_piped_output_is_plain(tmp_path: Path) -> None:
    """No escape sequence, no progress line on standard output, nothing cut at 80 columns."""
    done = call("check", VAN, cwd=tmp_path, COLUMNS="40")
    assert "\x1b" not in done.stdout
    assert "\r" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) > 80


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-8"])
def test_any_encoding(encoding: str, tmp_path: Path) -> None:
    """A console that cannot take a character gets another one; drawing adapts to what it can take."""
    label = tmp_path / "label.circuit"
    text = VAN.read_text(encoding="utf-8").replace("Fuel pump", "Kraftstoffpumpe \u6cf5 \u2193")
    label.write_text(text, encoding="utf-8")
    command = [sys.executable, "-m", "logiccheck", "check", str(label)]
    done = subprocess.run(
        command, cwd=tmp_path, env=environment(PYTHONIOENCODING=encoding), capture_output=True, timeout=300, check=False
    )
    assert done.returncode == 1, done.stderr
    assert b"Traceback" not in done.stderr
    shown = done.stdout.decode(encoding)
    assert ("\u2502" in shown) == (encoding in ("utf-8", "cp437"))


def test_a_reader_that_goes_away(tmp_path: Path) -> None:
    """Closing the pipe early is no traceback."""
    command = [sys.executable, "-m", "logiccheck", "check", str(VAN)]
    process = subprocess.Popen(command, cwd=tmp_path, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    errors = process.stderr.read()
    process.wait(timeout=300)
    process.stderr.close()
    assert b"Traceback" not in errors
    assert process.returncode != 0


@pytest.mark.skipif(sys.platform == "win32", reason="streams are closed otherwise there")
@pytest.mark.parametrize(("closed", "status"), [((1,), 1), ((2,), 1), ((1, 2), 1)])
def test_streams_that_are_closed(closed: tuple[int, ...], status: int, tmp_path: Path) -> None:
    """Who closes a stream wants nothing from it; the exit status is that of the check."""

    def close() -> None:
        for each in closed:
            os.close(each)

    command = [sys.executable, "-m", "logiccheck", "check", str(VAN)]
    done = subprocess.run(command, cwd=tmp_path, env=environment(), capture_output=True, preexec_fn=close, check=False)
    assert done.returncode == status
    assert b"our bug" not in done.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no full device")
@pytest.mark.parametrize("arguments", [["check", str(VAN)], ["about", "fails"], ["begin", "garage"]])
def test_a_full_disk(arguments: list[str], tmp_path: Path) -> None:
    """It is said plainly, and is no bug of ours."""
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "logiccheck", *arguments]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment(), stdout=full, stderr=subprocess.PIPE, timeout=300, check=False
        )
    assert done.returncode == 3
    assert done.stderr == b"Cannot write the report: No space left on device.\n"


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo terminals there")
@pytest.mark.parametrize(("more", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)])
def test_terminal(more: dict[str, str], coloured: bool, tmp_path: Path) -> None:
    """On a terminal there are colours, unless NO_COLOR or a dumb terminal says otherwise; lines fit its width."""
    import pty

    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "logiccheck", "check", str(VAN)]
    settings = environment(**{"TERM": "xterm-256color", "COLUMNS": "70", **more})
    process = subprocess.Popen(command, cwd=tmp_path, env=settings, stdout=theirs, stderr=subprocess.DEVNULL)
    os.close(theirs)
    output = b""
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:
            break
        if not piece:
            break
        output += piece
    os.close(ours)
    assert process.wait(timeout=300) == 1
    assert (b"\x1b[" in output) == coloured
    assert "NOT SAFE TO LOAD" in output.decode("utf-8")
