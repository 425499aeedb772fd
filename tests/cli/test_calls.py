"""Calls that are mistaken, and what is said to them; limits on what a call may use."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from logiccheck.base import budget as module
from logiccheck.base.budget import Budget, OutOfMemory, memory_bound
from logiccheck.cli.main import main
from logiccheck.cli.memory import MEGABYTE, held, holds_more_than
from logiccheck.cli.reader import DiskReader
from logiccheck.engine import decider
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Undecided, Verdict
from logiccheck.lang.load import load
from logiccheck.session import checking
from tests.calling import EXAMPLES, call
from tests.cli.test_check import FAILS, PROVED, vehicle

VAN = EXAMPLES / "first-steps" / "van.circuit"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check", "v", "--bugdet", "3"], "check has no option --bugdet. Did you mean --budget?"),
        (["check", "v", "--bugdet=3"], "check has no option --bugdet. Did you mean --budget?"),
        (["play", "v", "--scenaro-file", "x"], "play has no option --scenaro-file. Did you mean --scenario-file?"),
        (["show", "v", "--colour"], "show has no option --colour. Options: --json, --help."),
        (["chek", "v"], "there is no command chek. Did you mean check?"),
        (["show", "v", "a", "b"], "one argument is too much: b"),
    ],
)
def test_what_was_meant(arguments: list[str], said: str, tmp_path: Path) -> None:
    """A misspelled command or option is named, with what is near to it; status 2."""
    done = call(*arguments, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines()[-1] == f"logiccheck: error: {said}"


@pytest.mark.parametrize("memory", ["0", "-1", "nan", "inf", "much", ""])
def test_a_memory_that_is_none(memory: str, tmp_path: Path) -> None:
    """What is meant, and an example to type."""
    done = call("check", VAN, f"--memory={memory}", cwd=tmp_path)
    assert done.returncode == 2
    meant = f"a number of megabytes above 0 is meant, for example 4000, and not '{memory}'"
    assert done.stderr.splitlines()[-1] == f"logiccheck check: error: argument --memory: {meant}"


def test_too_little_memory(tmp_path: Path) -> None:
    """Nothing is decided, it is said why and what to do, and the status is that of what is open."""
    done = call("check", vehicle(tmp_path, PROVED + FAILS), "--memory", "1", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (3, "")
    assert done.stdout.count("  Not decided: the memory for it ran out. More memory: --memory MB.") == 2
    assert done.stdout.splitlines()[-1] == "proved 0, fails 0, not decided 2, no case 0, blocked 0: not shown safe"


def test_no_memory_left_for_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """What needs too much is not decided; what was decided before and after stays."""
    program = load(str(VAN), DiskReader(str(VAN))).program
    assert program is not None
    alone = check_program(program)
    before = decider.Decider._decide

    def hungry(made: Any, question: Any, budget: Any) -> Verdict:
        if question.requirement.name == "primes":
            raise MemoryError
        return before(made, question, budget)

    monkeypatch.setattr(decider.Decider, "_decide", hungry)
    for verdict, usual in zip(check_program(program).verdicts, alone.verdicts, strict=True):
        if verdict.requirement.name == "primes":
            assert (verdict.kind, verdict.undecided) == (Kind.NOT_DECIDED, Undecided.MEMORY)
        else:
            assert verdict.kind is usual.kind


def test_no_memory_left_at_all(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Before anything is asked: nothing is decided, and it is no bug of ours. While reading: nothing is reported."""

    def hungry(*_: object) -> None:
        raise MemoryError

    with monkeypatch.context() as patched:
        patched.setattr(decider, "settled_moment", hungry)
        assert main(["check", str(VAN)]) == 3
    assert "not decided 5" in capsys.readouterr().out
    monkeypatch.setattr(checking, "load", hungry)
    assert main(["check", str(VAN)]) == 3
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "\nThere is no memory left on this machine; nothing is reported.\n")


def test_more_memory_than_was_allowed(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """It is not the machine that has too little: said with what would help."""

    def hungry(*_: object) -> None:
        raise module.OutOfMemory

    monkeypatch.setattr(checking, "load", hungry)
    assert main(["check", str(VAN)]) == 3
    assert capsys.readouterr().err == (
        "\nThis needs more memory than it may hold, so nothing is reported; more: --memory MB\n"
    )


def test_a_budget_looks_at_the_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    """Within the bound nothing happens; above it every budget ends; not after it is lifted."""
    monkeypatch.setattr(module, "LOOK_SECONDS", 0.0)
    budget, full = Budget(100), [False]
    with memory_bound(lambda: full[0]):
        budget.check()
        full[0] = True
        with pytest.raises(OutOfMemory):
            budget.check()
    budget.check()


def test_what_is_held_is_measured() -> None:
    """Fifty megabytes more are seen as that."""
    before = held()
    more = bytearray(50 * MEGABYTE)
    more[::1000] = b"x" * len(more[::1000])
    assert 40 * MEGABYTE < held() - before < 80 * MEGABYTE
    assert holds_more_than((before + 40 * MEGABYTE) / MEGABYTE)()
    assert not holds_more_than((before + 90 * MEGABYTE) / MEGABYTE)()


def test_a_vehicle_without_a_name(tmp_path: Path) -> None:
    """It is called by its file."""
    path = vehicle(tmp_path, PROVED)
    path.write_text(path.read_text(encoding="utf-8").replace('"Test bench"', '" "'), encoding="utf-8")
    assert call("check", path, cwd=tmp_path).stdout.startswith("bench.circuit: PROVED.")
    assert call("play", path, cwd=tmp_path).stdout.startswith("bench.circuit: NOTHING TO PLAY.")


def test_long_chains(tmp_path: Path) -> None:
    """Rules and wires that lead into each other one after the other are followed, or it is said that there are too
    many."""
    chain = "".join(f"    rule r{number + 1} = r{number}\n" for number in range(1_500))
    wires = "".join(f"    wire w{number + 1} from w{number}\n" for number in range(1_050))
    head = 'vehicle "Long"\nworld\n    key contact\nharness\n    source plus when key\n    wire w0 from plus\n'
    box = "controller powered by w0\n    sense r0 from w0 live\n"
    path = tmp_path / "long.circuit"
    path.write_text(f"{head}{box}{chain}requirements\n    danger a never r1500 while not key\n", encoding="utf-8")
    assert call("check", path, "--budget", "60", "--lint", "0", cwd=tmp_path).returncode == 0
    assert call("show", path, "r1500", cwd=tmp_path).returncode == 0
    path.write_text(f"{head}{wires}requirements\n    danger a never w1050 while not key\n", encoding="utf-8")
    done = call("check", path, "--budget", "1", "--lint", "0", cwd=tmp_path)
    assert done.returncode != 4  # how much is decided is not the matter
    chain = "".join(f"    rule r{number + 1} = r{number}\n" for number in range(9_000))
    path.write_text(f"{head}{box}{chain}", encoding="utf-8")
    done = call("show", path, "r9000", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (3, "")
    assert "Too many things in the file lead into each other" in done.stderr
