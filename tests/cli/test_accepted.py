"""What is accepted: in every report with reason, name and date, and back as soon as its logic changes."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from logiccheck.cli.reader import DiskReader
from logiccheck.report.report import Outcome, Report
from logiccheck.session.checking import check, lint
from tests.calling import call

BENCH = """\
vehicle "Bench"
world
    key "Key" off | run | start one by one
    door "Door" closed | open
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key in {run, start}
    wire spare_wire from plus when door is open
controller "Box" powered by feed
    sense key_on from key_wire live
    sense spare "Rear camera" from spare_wire live
    output pump "Pump" when key_on
requirements
    function a always pump while key is off
    damage   b never pump while key is run
    danger   c never pump while key is start
    damage   d never pump while key is off
"""
SAID = '"Lives with it." by "R. Brandt" on 2026-11-02'
WORD = "Accepted by R. Brandt on 2026-11-02: Lives with it."
BACK = (
    "Accepted by R. Brandt on 2026-11-02, but the logic it rests on has changed since. The reason was: Lives with it."
)
TOLD = {"unknown-finding", "accepted-in-vain"}


def checked(
    folder: Path, accepted: str = "", text: str = BENCH, seconds: float = 0.0, only: tuple[str, ...] = ()
) -> Report:
    """The report of a check; `accepted` are lines of the block."""
    path = _written(folder, accepted, text)
    return check(path, DiskReader(path), 30.0, only, None, lint=seconds).report


def linted(folder: Path, accepted: str = "", text: str = BENCH, only: tuple[str, ...] = ()) -> Report:
    """The report of a lint."""
    path = _written(folder, accepted, text)
    return lint(path, DiskReader(path), 30.0, only, None, lambda: None).report


def _written(folder: Path, accepted: str, text: str) -> str:
    path = folder / "bench.circuit"
    lines = "".join(f"    {line}\n" for line in accepted.splitlines())
    path.write_text(text + (f"accepted\n{lines}" if accepted else ""), encoding="utf-8")
    return path.as_posix()


def filled_in(line: str) -> str:
    """The line that a report prints, as somebody fills it in."""
    return line.replace('"REASON" by "NAME" on YYYY-MM-DD', SAID)


def ready(report: Report) -> dict[str, str]:
    """The lines that would accept what is in the report, filled in, by what they are about."""
    lines = [part.to_accept.line for part in (*report.notices, *report.verdicts) if part.to_accept is not None]
    return {line.split()[1]: filled_in(line) for line in lines}


def test_the_line_that_is_printed_accepts(tmp_path: Path) -> None:
    """Copied and filled in, the lines accept what they stand below; only danger to people is left."""
    first = checked(tmp_path)
    assert first.outcome is Outcome.FAILS
    assert set(ready(first)) == {"a", "b", "spare"}
    second = checked(tmp_path, "\n".join(ready(first).values()))
    words = {part.name: part.accepted for part in second.verdicts}
    assert {name for name, word in words.items() if word is not None and word.excuses} == {"a", "b"}
    assert second.opening == (
        "Bench: NOT SAFE TO LOAD. Requirements that fail: 1 of 4. Accepted although they do not hold: 2."
    )
    assert second.closing == (
        "proved 1, fails 3, not decided 0, no case 0, blocked 0, "
        "findings looked for in the text only, accepted requirements 2, accepted findings 1: not safe to load"
    )
    (notice,) = second.notices
    assert notice.accepted is not None
    assert notice.accepted.sentence == WORD
    assert (notice.to_accept, notice.counts) == (None, False)
    assert "Findings that are accepted: 1." in second.notes


def test_function_and_damage_are_excused(tmp_path: Path) -> None:
    """The run is good then, though it never says that all is proved."""
    text = BENCH.replace("    danger   c never pump while key is start\n", "")
    report = checked(tmp_path, "\n".join(ready(checked(tmp_path, text=text)).values()), text)
    assert report.outcome is Outcome.GOOD
    assert report.opening == (
        "Bench: PROVED BUT FOR WHAT IS ACCEPTED. Requirements that hold in all situations, orders and timings: 1 of 3. "
        "Accepted although they do not hold: 2."
    )
    assert report.closing == (
        "proved 1, fails 2, not decided 0, no case 0, blocked 0, "
        "findings looked for in the text only, accepted requirements 2, accepted findings 1: "
        "all but what is accepted is proved, within what is given and the limits above"
    )


def test_danger_is_accepted_and_fails_all_the_same(tmp_path: Path) -> None:
    """Its line is printed to who has begun one; accepted, it is shown so, and the run fails."""
    lines = ready(checked(tmp_path))
    begun = checked(tmp_path, f"requirement c {SAID} logic 0000-0000")
    part = next(part for part in begun.verdicts if part.name == "c")
    assert part.to_accept is not None
    assert part.to_accept.lead == "to accept it, though the verdict stays as it is:"
    assert part.accepted is not None
    assert part.accepted.sentence == (
        "Accepted by R. Brandt on 2026-11-02, but without the mark of the logic: Lives with it."
    )
    report = checked(tmp_path, "\n".join((*lines.values(), filled_in(part.to_accept.line))))
    word = next(part.accepted for part in report.verdicts if part.name == "c")
    assert word is not None
    assert (word.excuses, word.lapsed) == (False, False)
    assert word.sentence == f"{WORD} It guards against danger to people, so the verdict stays as it is."
    assert report.outcome is Outcome.FAILS
    assert report.opening.startswith("Bench: NOT SAFE TO LOAD. Requirements that fail: 1 of 4.")
    assert report.closing.endswith("accepted requirements 3, accepted findings 1: not safe to load")


SAME = [
    ('"Rear camera"', '"Front camera"'),
    ("    source plus\n    wire feed from plus\n", "    wire feed   from plus   # thick\n\n    source plus\n"),
    ("never pump while key is off", "never pump while door is open"),
]
OTHER = [
    ("when door is open", "when door is closed", {"spare"}),
    ("when key_on", "when key_on and not spare", {"a", "b"}),
    ("never pump while key is run", "never pump while key is run or key is start", {"b"}),
    ("damage   b", "function b", {"b"}),
    ("key in {run, start}", "key is start or key is run", {"a", "b"}),
    ("off | run | start one by one", "off | run | start", {"a", "b"}),
]


@pytest.mark.parametrize(("old", "new"), SAME)
def test_what_is_accepted_stays_so(old: str, new: str, tmp_path: Path) -> None:
    """Labels, layout, comments, the order of lines, and logic elsewhere do not touch it."""
    lines = "\n".join(ready(checked(tmp_path)).values())
    assert old in BENCH
    report = checked(tmp_path, lines, BENCH.replace(old, new))
    words = [part.accepted for part in (*report.notices, *report.verdicts) if part.accepted is not None]
    assert [word.sentence for word in words] == [WORD] * 3


@pytest.mark.parametrize(("old", "new", "back"), OTHER)
def test_it_lapses_with_its_logic(old: str, new: str, back: set[str], tmp_path: Path) -> None:
    """What rests on the changed line is back, and it is said that it was accepted; the rest stays accepted."""
    lines = ready(checked(tmp_path))
    assert old in BENCH
    report = checked(tmp_path, "\n".join(lines.values()), BENCH.replace(old, new))
    parts: list[tuple[str, Any]] = [(part.name, part) for part in report.verdicts]
    parts += [(part.about[0], part) for part in report.notices if part.about]
    found = {name: part for name, part in parts if name in lines}
    assert {name for name, part in found.items() if part.accepted.lapsed} >= back & set(found)
    for name, part in found.items():
        assert part.accepted.sentence == (BACK if part.accepted.lapsed else WORD), name
        assert (part.to_accept is not None) is part.accepted.lapsed
    if "spare" in back:
        assert [name for name, part in found.items() if part.accepted.lapsed] == ["spare"]


def test_what_is_not_so_cannot_be_accepted(tmp_path: Path) -> None:
    """A line that matches nothing makes the run fail, and says so; each time, not only with other failures."""
    text = re.sub(r"    (function|damage   b|danger) .*\n", "", BENCH).replace(
        '    sense spare "Rear camera" from spare_wire live\n', ""
    )
    report = checked(tmp_path, f"requirement d {SAID} logic 0000-1111\nunused-name pump {SAID} logic 0000-1111", text)
    assert report.outcome is Outcome.FAILS
    assert report.opening == "Bench: ACCEPTED IN VAIN. Lines under `accepted` with nothing to accept: 2."
    assert report.closing == (
        "proved 1, fails 0, not decided 0, no case 0, blocked 0, "
        "findings looked for in the text only, accepted in vain 2: nothing to accept"
    )
    assert {(notice.name, notice.sentence) for notice in report.notices} == {
        ("accepted-in-vain", "The requirement `d` is accepted, but it holds."),
        ("accepted-in-vain", "`unused-name` of `pump` is accepted, but nothing of the kind is found."),
    }
    found = linted(tmp_path, f"requirement d {SAID} logic 0000-1111\nunused-name pump {SAID} logic 0000-1111", text)
    assert found.outcome is Outcome.FAILS
    assert found.opening == "Bench: ACCEPTED IN VAIN. Lines under `accepted` with nothing to accept: 1."


def test_of_two_lines_the_one_with_the_old_mark_is_in_vain(tmp_path: Path) -> None:
    """Whoever pastes the new line has to take out the old one."""
    new = ready(checked(tmp_path))["spare"]
    report = checked(tmp_path, f"{new}\nunused-name spare {SAID} logic 0000-1111")
    assert [notice.name for notice in report.notices] == ["accepted-in-vain", "unused-name"]
    assert report.notices[1].accepted is not None
    assert report.notices[1].accepted.excuses


def test_what_was_not_looked_for_is_not_in_vain(tmp_path: Path) -> None:
    """A requirement that was not checked, or a kind that needs time, may or may not be so."""
    report = checked(tmp_path, f"requirement d {SAID} logic 0000-1111", only=("a",))
    assert "accepted-in-vain" not in {notice.name for notice in report.notices}
    assert "Accepted, but whether it is still so was not found out this time: requirement of d." in report.notes
    assert f"requirement of d: {WORD}" in report.notes
    found = linted(tmp_path, f"requirement d {SAID} logic 0000-1111\nw102 pump {SAID} logic 0000-1111", only=("W101",))
    assert {notice.name for notice in found.notices} == {"unused-name"}
    assert not any("whether it is still so" in note for note in found.notes)


@pytest.mark.parametrize("words", ['"REASON" by "R. Brandt"', '"Lives with it." by "NAME"', '" REASON " by "NAME"'])
def test_the_line_has_to_be_filled_in(words: str, tmp_path: Path) -> None:
    """What stands in it for a reason and for a name is neither."""
    report = checked(tmp_path, f"requirement d {words} on 2026-11-02 logic 0000-1111")
    assert report.outcome is Outcome.MISTAKE
    assert {notice.name for notice in report.notices} == {"accepted-without"}


def test_a_reason_ends_before_the_next_sentence(tmp_path: Path) -> None:
    """Also one that was written without a full stop."""
    said = SAID.replace("it.", "it")
    begun = checked(tmp_path, f"requirement c {said} logic 0000-0000")
    line = next(part.to_accept.line for part in begun.verdicts if part.name == "c" and part.to_accept is not None)
    report = checked(tmp_path, filled_in(line).replace(SAID, said))
    word = next(part.accepted for part in report.verdicts if part.name == "c")
    assert word is not None
    assert word.sentence.startswith(f"{WORD} It guards against danger")


def test_a_lint_with_all_accepted_is_good(tmp_path: Path) -> None:
    """Names and codes both accept; first and last line count what is accepted."""
    line = ready(linted(tmp_path))["spare"]
    for accepted in (line, line.replace("unused-name", "W101"), line.replace("unused-name", "Unused_Name")):
        report = linted(tmp_path, accepted)
        assert report.outcome is Outcome.GOOD, accepted
        assert report.opening == (
            "Bench: NOTHING ELSE FOUND. This says nothing about what is required: for that, check it. Accepted: 1."
        )
        assert (
            report.closing == "danger 0, damage 0, function 0, accepted 1, questions not decided 0: nothing else found"
        )


def test_a_kind_that_there_is_not(tmp_path: Path) -> None:
    """It is a mistake, before anything is checked."""
    for report in (
        checked(tmp_path, f"unused-names spare {SAID} logic 0000-1111"),
        linted(tmp_path, f"unused-names spare {SAID} logic 0000-1111"),
    ):
        assert report.outcome is Outcome.MISTAKE
        (notice,) = report.notices
        assert (notice.name, notice.advice) == ("unknown-finding", "Did you mean `unused-name`?")
        assert notice.sentence == "There is no finding named `unused-names`."
    strange = checked(tmp_path, f"nothing-like-it spare {SAID} logic 0000-1111").notices[0]
    assert strange.advice == "`logiccheck about` lists the names of all."


def test_it_stands_in_every_format(tmp_path: Path) -> None:
    """Text, JSON, SARIF and JUnit XML from outside; the exit status is 1 because of the danger alone."""
    lines = [*ready(checked(tmp_path)).values(), f"requirement c {SAID} logic 0000-0000"]
    _written(tmp_path, "\n".join(lines), BENCH)
    options = ("--edits", "0", "--lint", "0")
    done = call("check", "bench.circuit", *options, "--sarif", "s.json", "--junit", "j.xml", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout.count(WORD) == 3
    assert "\naccepted: Nothing depends on the sense `spare`.\n" in done.stdout
    assert "\nFAILS, accepted  a\n" in done.stdout
    assert "\n  FAILS, accepted  b  never" in done.stdout
    report = json.loads(call("check", "bench.circuit", *options, "--json", cwd=tmp_path).stdout)["report"]
    word = next(part["accepted"] for part in report["verdicts"] if part["name"] == "a")
    assert (word["reason"], word["by"], word["on"]) == ("Lives with it.", "R. Brandt", "2026-11-02")
    (run,) = json.loads((tmp_path / "s.json").read_text(encoding="utf-8"))["runs"]
    said = {
        result["message"]["text"].split(":")[0]: [each["status"] for each in result.get("suppressions", ())]
        for result in run["results"]
    }
    assert said == {
        "a": ["accepted"], "b": ["accepted"], "c": ["rejected"], "Nothing depends on the sense `spare`.\nSomething may "
        "not work as meant.\nUse it where it was meant to be used, or take it out.\nAccepted by R. Brandt on 2026-11-02":
        ["accepted"],
    }  # fmt: skip
    root = ElementTree.fromstring((tmp_path / "j.xml").read_text(encoding="utf-8"))
    cases = {case.get("name"): case[0].tag if len(case) else "passed" for case in root.iter("testcase")}
    assert cases == {"a": "skipped", "b": "skipped", "c": "failure", "d": "passed", "unused-name spare": "skipped"}


@pytest.mark.parametrize("words", [("play",), ("show",), ("why", "pump", "--scenario", "s", "--at", "1s")])
def test_other_commands_do_not_look_at_it(words: tuple[str, ...], tmp_path: Path) -> None:
    """They say the same with it and without it."""
    text = BENCH + "scenario s\n    at 1 s key is run\n    at 1 s expect pump\n"
    told = []
    for accepted in ("", f"unused-names pump {SAID} logic 0000-1111"):
        _written(tmp_path, accepted, text)
        done = call(words[0], "bench.circuit", *words[1:], cwd=tmp_path)
        told.append((done.returncode, re.sub(r"sha256 \w+", "", done.stdout)))
    assert told[0] == told[1]
    assert told[0][0] in (0, 1)
