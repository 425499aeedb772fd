"""`check --jobs`: the work shared among processes, with nothing different in what comes out."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from logiccheck.cli.crew import Processes, Start, WorkerBroke, _Worker
from logiccheck.engine.check import check_program
from logiccheck.engine.decider import Asked, Decided
from logiccheck.engine.verdict import Kind, Undecided, Verdict
from tests.bench.families import family
from tests.calling import EXAMPLES, ROOT, call, environment
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

STARTS: tuple[Start, ...] = ("spawn",) if os.name == "nt" else ("spawn", "forkserver")
SMALL = 'vehicle "T"\nworld\n    x contact\n    y contact\nrequirements\n' + "".join(
    f"    danger r{k} never x for longer than {k} s\n    danger s{k} never x and y for longer than {k} s\n"
    for k in range(1, 6)
)


def crew(start: Start, jobs: int = 2) -> Processes:
    return Processes(jobs, 4000, lambda _: None, start)


@pytest.mark.parametrize("file", ["coffee-van/van.circuit", "first-steps/van.circuit", "relay-only/boat.circuit"])
def test_the_report_is_that_of_one_job(file: str) -> None:
    one, three = (call("check", EXAMPLES / file, "--jobs", jobs, "--budget", "300", cwd=ROOT) for jobs in ("1", "3"))
    assert (three.returncode, three.stdout, three.stderr) == (one.returncode, one.stdout, one.stderr)


@pytest.mark.parametrize("start", STARTS)
@pytest.mark.parametrize("seed", [11, 12, 15])
def test_verdicts_and_stories_are_those_of_one_job(start: Start, seed: int) -> None:
    program = loaded(random_program(seed).text)
    alone, shared = check_program(program, 300), check_program(program, 300, crew=crew(start))
    assert [_timeless(v) for v in shared.verdicts] == [_timeless(v) for v in alone.verdicts]
    assert shared.troubles == alone.troubles
    assert [found.question for found in shared.grounds.found] == [found.question for found in alone.grounds.found]


def _timeless(verdict: Verdict) -> Verdict:
    return replace(verdict, seconds=0.0)


class Killing:
    """A crew of which the process that looks at the first question is killed; `before`: and is gone before it gets it."""

    def __init__(self, before: bool) -> None:
        self.before = before
        self.real = crew("spawn", jobs=2)

    def begin(self, asked: Asked, names: list[str]) -> Iterator[tuple[int, Decided | None]]:
        workers: list[_Worker] = []
        make = self.real._worker

        def made(asked: Asked) -> _Worker:
            workers.append(make(asked))
            return workers[-1]

        self.real._worker = made  # type: ignore[method-assign]
        answers = self.real.begin(asked, names)
        workers[0].process.kill()
        if self.before:
            workers[0].process.join()
        return answers


@pytest.mark.parametrize("before", [False, True])
def test_a_killed_process_loses_its_question_and_no_other(before: bool) -> None:
    verdicts = check_program(loaded(SMALL), 300, crew=Killing(before)).verdicts
    lost = [v for v in verdicts if v.kind is Kind.NOT_DECIDED]
    assert [v.undecided for v in lost] == [Undecided.LOST]
    assert all(v.kind is Kind.FAILS for v in verdicts if v not in lost)
    assert len(verdicts) == 10


def test_a_mistake_of_ours_in_a_worker_is_ours_here() -> None:
    broken = Asked(loaded(SMALL), 300, frozenset({"r1"}), frozenset())
    answers = crew("spawn").begin(broken, ["r1", "no such question"])
    with pytest.raises(WorkerBroke, match="IndexError"):
        list(answers)


@pytest.mark.skipif(os.name == "nt", reason="sends a signal to a group of processes")
def test_ctrl_c_ends_all_processes(tmp_path: Path) -> None:
    """The report is true and comes soon; no process is left behind."""
    file = tmp_path / "hard.circuit"
    file.write_text(family("both:20"), encoding="utf-8")
    command = [sys.executable, "-m", "logiccheck", "check", str(file), "--jobs", "2", "--budget", "600"]
    options = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    with subprocess.Popen(command, env=environment(), start_new_session=True, **options) as process:  # type: ignore[call-overload]
        time.sleep(8)
        os.killpg(process.pid, signal.SIGINT)
        out, err = process.communicate(timeout=120)
    assert process.returncode == 1  # what it asks is only what the box believes, which lint finds in the text
    assert "interrupted" in out
    assert "Traceback" not in err
    until = time.monotonic() + 60  # what helps to start processes ends by itself, a little later
    while _anybody(process.pid):
        assert time.monotonic() < until, "a process was left behind"
        time.sleep(0.1)


def _anybody(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


def test_how_many_jobs_there_may_be() -> None:
    for wrong in ("0", "-1", "two", "1.5", "1000"):
        done = call("check", "x.circuit", "--jobs", wrong, cwd=ROOT)
        assert done.returncode == 2
        assert f"a whole number of processes from 1 to 64 is meant, for example 2, and not '{wrong}'" in done.stderr
