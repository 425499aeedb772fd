"""`check` tells an edit that would mend what fails, never makes it, and looks for as long as it is told to."""

from __future__ import annotations

from pathlib import Path

import pytest

from logiccheck.engine.verdict import Kind
from logiccheck.session.checking import check
from tests.calling import call

LINE = "    output lamp when a_on"
VEHICLE = f"""\
vehicle "Bench"
world
    a contact
    b contact
    at first a is off, b is off
harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
controller "Box" powered by plus
    sense a_on from a_wire live
    sense b_on from b_wire live
{LINE}
requirements
    danger dark never lamp while b
    danger darker never lamp while a and b
"""


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    path = tmp_path / "bench.circuit"
    path.write_text(VEHICLE, encoding="utf-8")
    return path


def told(text: str) -> list[str]:
    """What a report says about edits, line by line."""
    lines = [line.strip() for line in text.splitlines()]
    return [line for line in lines if "suggest" in line or line.endswith("and not b_on")]


def test_an_edit_is_told_and_not_made(bench: Path) -> None:
    """The line as it would be, below the story; the file stays as it is. Typed, it mends both requirements."""
    done = call("check", bench.name, "--edits", "60", cwd=bench.parent)
    assert done.returncode == 1
    assert told(done.stdout) == [
        "It would hold with this edit (a suggestion; all that it can matter to was checked again, and nothing of it gets "
        "worse):",
        f"13 │ {LINE} and not b_on",
        "It would hold with what is suggested for dark, too.",
    ]
    assert bench.read_text(encoding="utf-8") == VEHICLE
    bench.write_text(VEHICLE.replace(LINE, f"{LINE} and not b_on"), encoding="utf-8")
    assert call("check", bench.name, cwd=bench.parent).returncode == 0


def test_nobody_has_to_wait_for_it(bench: Path) -> None:
    """With 0 none is looked for, and nothing is said of it."""
    done = call("check", bench.name, "--edits", "0", cwd=bench.parent)
    assert (done.returncode, told(done.stdout)) == (1, [])


def test_more_processes_tell_the_same(bench: Path) -> None:
    """Byte for byte."""
    alone, shared = (
        call("check", bench.name, "--edits", "60", *more, cwd=bench.parent) for more in ((), ("--jobs", "2"))
    )
    assert alone.stdout == shared.stdout


def test_what_is_asked_alone_spoils_nothing_else(bench: Path) -> None:
    """With --only the requirements left out are checked all the same before an edit is told."""
    text = VEHICLE + "    function lit always lamp while a\n"
    bench.write_text(text, encoding="utf-8")
    done = call("check", bench.name, "--only", "dark", "--edits", "60", cwd=bench.parent)
    (sentence,) = told(done.stdout)
    assert sentence.startswith(
        "No edit to suggest: none of those tried was shown to mend it and spoil nothing. Tried: "
    )


def test_nonsense_is_refused(bench: Path) -> None:
    """As with every other number of seconds."""
    done = call("check", bench.name, "--edits", "some", cwd=bench.parent)
    assert done.returncode == 2
    assert "a number of seconds" in done.stderr


def test_a_mistake_of_ours_costs_no_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    """What goes wrong while edits are looked for is named, beside the report that was there before."""

    def broken(*_: object) -> None:
        raise ValueError("no such spot")

    monkeypatch.setattr("logiccheck.explain.beside.look_for_edits", broken)
    answer = check("bench.circuit", lambda _: VEHICLE.encode(), 60, (), None, edits=60)
    assert [(part.name, part.kind) for part in answer.report.verdicts] == [("dark", Kind.FAILS), ("darker", Kind.FAILS)]
    (bug,) = answer.bugs
    assert bug.what == "ValueError: no such spot"
