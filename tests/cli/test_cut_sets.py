"""`faults --sets`: minimal cut sets, as a user calls it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.calling import call

REDUNDANT = """vehicle "Spare lamp"

harness
    source plus
    wire left from plus
    wire right from plus

controller "Box" powered by plus
    sense left_there  from left  live
    sense right_there from right live
    output horn when not left_there and not right_there

requirements
    danger   quiet "The horn stays quiet" never horn
    function lit   always left
    function can   possible horn
"""
ONLY = ("--only", "open")


@pytest.fixture
def spare(tmp_path: Path) -> Path:
    (tmp_path / "spare.circuit").write_text(REDUNDANT, encoding="utf-8")
    return tmp_path


def test_sets_of_two(spare: Path) -> None:
    """Nothing is enough alone; both wires are."""
    done = call("faults", "spare.circuit", "--sets", "2", *ONLY, cwd=spare)
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert lines[0] == (
        "Spare lamp: Requirements asked what makes them fail: 1. Fail with one fault: 0. "
        "Fail only with several, at most 2: 1."
    )
    assert "  - left open and right open" in lines
    assert "    at first left open is there and right open is there" in lines
    assert (
        lines[-1]
        == "asked 1, no fault 0, one fault 0, several 1, not all decided 0: no single fault of these is enough"
    )


def test_one_fault_is_enough_for_danger(spare: Path) -> None:
    """As of single faults, that is what the exit status tells."""
    done = call("faults", "spare.circuit", "--sets", "1", "--only", "horn", cwd=spare)
    assert done.returncode == 1
    assert "  - horn stuck on" in done.stdout.splitlines()


def test_what_guards_no_danger_by_name(spare: Path) -> None:
    """It costs nobody the exit status; what must be possible is not asked."""
    done = call(
        "faults", "spare.circuit", "--sets", "1", "--requirement", "lit", "--requirement", "can", *ONLY, cwd=spare
    )
    assert done.returncode == 0
    assert "  - left open" in done.stdout.splitlines()
    assert "a fault that may also stay away never ends that: can." in done.stdout


def test_pairs(spare: Path) -> None:
    """Beside the single faults: as text, as JSON, and on the page. The horn never sounds here, which is no good news."""
    some = ("--pairs", "--requirement", "quiet", "--only", "left", "--only", "right")
    done = call("faults", "spare.circuit", *some, cwd=spare)
    assert done.returncode == 3, done.stderr
    lines = done.stdout.splitlines()
    at = lines.index("Pairs of faults, where neither of them alone is enough")
    assert "  - left open and right open: if both are there at some time; both hidden" in lines[at:]
    assert "    at first left open is there and right open is there" in lines[at:]
    assert "pairs 1: " in lines[-1]
    page = call("faults", "spare.circuit", *some, "--html", "-", cwd=spare).stdout
    assert "Pairs of faults, where neither of them alone is enough" in page
    done = call("faults", "spare.circuit", *some, "--json", cwd=spare)
    (part,) = json.loads(done.stdout)["report"]["faults"]["pairs"]
    assert (part["name"], len(part["hits"])) == ("quiet", 1)


def test_as_json(spare: Path) -> None:
    """Names, counts, and how far they are all."""
    done = call("faults", "spare.circuit", "--sets", "3", *ONLY, "--json", cwd=spare)
    (part,) = json.loads(done.stdout)["report"]["cut_sets"]["requirements"]
    assert (part["name"], part["counts"], part["complete"]) == ("quiet", [0, 0, 1, 0], 3)
    assert [each["faults"] for each in part["sets"]] == [["left open", "right open"]]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--sets", "0"), "a whole number of faults from 1 to 12 is meant, for example 2, and not '0'"),
        (("--sets", "2", "--stories"), "--sets tells of no single faults; leave out: --stories."),
        (("--sets", "2", "--requirement", "quite"), "quiet"),
        (("--sets", "2", "--only", "left closed"), "left"),
    ],
)
def test_what_cannot_be_asked(spare: Path, arguments: tuple[str, ...], said: str) -> None:
    """It is said, and nothing is looked at."""
    done = call("faults", "spare.circuit", *arguments, cwd=spare)
    assert done.returncode == 2
    assert said in done.stderr + done.stdout


def test_no_danger_is_nothing_asked(tmp_path: Path) -> None:
    """That is not green."""
    text = "\n".join(line for line in REDUNDANT.splitlines() if "quiet" not in line)
    (tmp_path / "van.circuit").write_text(text + "\n", encoding="utf-8")
    done = call("faults", "van.circuit", "--sets", "2", cwd=tmp_path)
    assert done.returncode == 1
    assert "logiccheck faults van.circuit --sets 2 --requirement NAME" in done.stdout


def test_switches_in_coils_are_in_no_set(tmp_path: Path) -> None:
    """Their sticking is not tried, which is said; and that is why none can be named."""
    text = """vehicle "Winch"
world
    up    contact
    stop  contact
harness
    source plus
    relay kp coil up and not stop supply plus
    wire motor from plus when kp
requirements
    danger stops never motor while stop
"""
    (tmp_path / "winch.circuit").write_text(text, encoding="utf-8")
    done = call("faults", "winch.circuit", "--sets", "1", *ONLY, cwd=tmp_path)
    told = "Not tried, that these stick where the coil of a relay names them: up (coil of kp); stop (coil of kp)."
    assert any(line.startswith(told) for line in done.stdout.splitlines()), done.stdout
    done = call("faults", "winch.circuit", "--sets", "1", "--only", "stop", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout.startswith("No fault of stop can be tried: it stands in the coil of kp.")
