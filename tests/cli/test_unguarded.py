"""`unguarded`: which small edits no requirement would notice, as a user sees it."""

from __future__ import annotations

import json
from pathlib import Path

from tests.calling import call

GUARDED = """\
vehicle "Bench"
world
    a contact
    b contact
harness
    source plus
    wire a_wire from plus when a
controller "Box" powered by plus
    sense a_on from a_wire live
    output lamp when a_on
requirements
    function lit always lamp while a
    function dark never lamp while not a
"""


def lines(file: Path, *options: str, status: int) -> list[str]:
    """What is said, up to what was taken as given."""
    done = call("unguarded", file.name, *options, cwd=file.parent)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout.splitlines()


def test_all_is_noticed(tmp_path: Path) -> None:
    """Status 0."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED)
    said = lines(file, status=0)
    assert said[0] == "Small edits that no requirement would notice: 0 of 4."
    assert said[-1] == (
        "tried 4, noticed 4, no effect 0, nobody would notice 0, not decided 0, skipped 0: "
        "every edit with an effect is noticed"
    )


def test_what_nobody_would_notice(tmp_path: Path) -> None:
    """Status 1, the line with what is dropped, and with --stories what happens."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED.replace("    function dark never lamp while not a\n", ""))
    said = lines(file, "--stories", status=1)
    assert said[0] == "Small edits that no requirement would notice: 1 of 4."
    at = said.index("lamp")
    assert said[at + 1 : at + 7] == [
        "  1. With this dropped, nobody would notice. In its story, at first, off as it is and on as edited: lamp.",
        "    bench.circuit:7:27",
        "    7 \u2502     wire a_wire from plus when a",
        "      \u2502                           ^^^^^^",
        "  This would notice, and is proved as it is: never lamp while not a",
        "",
    ]
    assert "Story of 1, as it is" in said


def test_only_what_hangs_on_a_name(tmp_path: Path) -> None:
    """Edits of other lines are not tried; a name that is none is told."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED.replace("requirements", "    output horn when a_on\nrequirements"))
    assert lines(file, "lamp", status=0)[0] == "Small edits that no requirement would notice: 0 of 4."
    assert lines(file, status=1)[0] == "Small edits that no requirement would notice: 1 of 5."
    done = call("unguarded", file.name, "lmp", cwd=tmp_path)
    assert done.returncode == 2
    assert "lamp" in done.stdout


def test_mistakes_and_obstacles(tmp_path: Path) -> None:
    """Mistakes of the file are told; where everything is blocked there is no answer."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED.replace("a_on\nreq", "c_on\nreq"))
    assert lines(file, status=2)
    file.write_text(GUARDED.replace("requirements", "given\n    never a\n    always a\nrequirements"))
    said = lines(file, status=1)
    assert said[0] == "No answer: `check` finds what blocks requirements in this file. Mend that first."


def test_no_time_to_settle(tmp_path: Path) -> None:
    """Nothing blocks; so more time is what helps, and the status is that of what is not decided."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED)
    said = lines(file, "--budget", "0.000001", status=3)
    assert said[0] == said[-1]
    assert said[0] == (
        "No answer: whether the rules and relays always come to rest was not decided in time, so no requirement counts "
        "as proved. More time: --budget SECONDS."
    )


def test_as_json(tmp_path: Path) -> None:
    """The whole report."""
    file = tmp_path / "bench.circuit"
    file.write_text(GUARDED)
    done = call("unguarded", file.name, "--json", cwd=tmp_path)
    assert done.returncode == 0
    assert json.loads(done.stdout)["report"]["opening"] == "Small edits that no requirement would notice: 0 of 4."
