"""Progress is silent for a second, then one line; Ctrl-C reports once and then quits."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from logiccheck.cli import progress as module
from logiccheck.cli.progress import Progress
from logiccheck.report.report import Outcome
from logiccheck.session.checking import check
from tests.calling import EXAMPLES, python

VAN = EXAMPLES / "first-steps" / "van.circuit"


class Terminal(io.StringIO):
    """A stream that somebody looks at."""

    def isatty(self) -> bool:
        """Always."""
        return True


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The time that the progress line sees; the test moves it."""
    now = [100.0]
    monkeypatch.setattr(module.time, "monotonic", lambda: now[0])
    return now


def test_nothing_is_said_in_the_first_second(clock: list[float]) -> None:
    """A quick run says nothing at all."""
    stream = Terminal()
    with Progress(stream) as progress:
        clock[0] += 0.9
        progress("a")
    assert stream.getvalue() == ""


def test_one_line_in_place_on_a_terminal(clock: list[float]) -> None:
    """Each name overwrites the one before, and at the end the line is empty again."""
    stream = Terminal()
    with Progress(stream) as progress:
        clock[0] += 1.1
        progress("first")
        progress("second")
    text = stream.getvalue()
    assert "\n" not in text
    assert [line.strip() for line in text.split("\r")] == ["", "checking first", "checking second", "", ""]


def test_nothing_elsewhere(clock: list[float]) -> None:
    """A log file holds what came of it, and not how it went."""
    stream = io.StringIO()
    with Progress(stream) as progress:
        clock[0] += 100
        progress("a")
    assert stream.getvalue() == ""


def test_an_interrupted_check_reports_what_was_decided() -> None:
    """What was decided stays, the rest is not decided, and the report says that it is incomplete."""
    seen: list[str] = []

    def interrupt(name: str) -> None:
        seen.append(name)
        if name == "primes":
            raise KeyboardInterrupt

    answer = check("van.circuit", lambda _: VAN.read_bytes(), 10.0, (), interrupt)
    report = answer.report
    assert "primes" in seen
    assert "can_start" not in seen
    assert report.outcome is Outcome.FAILS  # one had failed before
    assert report.opening.endswith("This run was interrupted.")
    assert "interrupted" in report.closing
    words = {part.name: part.kind.value for part in report.verdicts}
    assert words["no_key_no_spark"] == "proved"
    assert words["primes"] == words["can_start"] == "not decided"


FIRST = """
import os, signal
from logiccheck.cli.interrupt import first_interrupt_reports
with first_interrupt_reports():
    try:
        os.kill(os.getpid(), signal.SIGINT)
        signal.pause()
    except KeyboardInterrupt:
        print("reporting", flush=True)
{more}
"""


def test_the_first_interrupt_can_be_reported_and_the_second_quits(tmp_path: Path) -> None:
    """The first becomes a KeyboardInterrupt with a word on it; the second ends the process with status 3."""
    once = python(FIRST.format(more=""), tmp_path)
    assert (once.returncode, once.stdout) == (0, "reporting\n")
    assert "Ctrl-C again quits at once" in once.stderr
    twice = python(FIRST.format(more="    os.kill(os.getpid(), signal.SIGINT)\n    signal.pause()"), tmp_path)
    assert (twice.returncode, twice.stdout) == (3, "reporting\n")
