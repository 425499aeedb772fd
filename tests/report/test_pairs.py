"""Pairs of faults as told, of a small vehicle; each pair is asked again on a vehicle that has just its faults."""

from __future__ import annotations

from functools import cache
from itertools import combinations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.answers import Broken, Hidden, Noticed, Unclear
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import Fault, faults_of
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.load import load
from logiccheck.lang.program import Possible, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report.faults import Wanted, faults_report
from logiccheck.report.faults_part import FaultsPart
from logiccheck.report.report import Outcome, Report
from logiccheck.study.cut_sets import CutSets, cut_sets
from logiccheck.study.faults import faults

SPARE = """\
vehicle "Spare lamp"
world
    key  off | run
    at first key is off
harness
    source plus
    wire left      from plus
    wire right     from plus
    wire key_wire  from plus when key is run
controller "Box" powered by plus
    sense left_there   from left live
    sense right_there  from right live
    sense key_on       from key_wire live
    output horn when not left_there and not right_there
    output lamp when not left_there and key_on
electrics
    tell_tale lamp "Lamp" while key is run within 1 s
requirements
    damage    calm   never left_there and right_there while left is grounded
    function  lit    left or right calls for powered no later than 1 s
    danger    quiet  never horn
    function  dark   possible not lamp
"""
SOME = ("left open", "left grounded", "right open", "left_there dead", "right_there dead", "right_there live")


@cache
def spare() -> tuple[Program, tuple[SourceFile, ...], tuple[Fault, ...], Broken]:
    """The vehicle, its file, some of its faults, and what each does alone."""
    loaded = load("spare.circuit", lambda _: SPARE.encode())
    assert loaded.program is not None
    some = tuple(fault for fault in faults_of(loaded.program) if fault.id in SOME)
    found = faults(loaded.program, check_program(loaded.program), Budget(300), lambda _: None, only=some)
    return loaded.program, loaded.files, some, found


@cache
def pairs(seconds: float = 300.0) -> CutSets:
    program, _, some, found = spare()
    return cut_sets(program, some, 2, [each.name for each in found.asked], Budget(seconds), lambda _: None)


def reported(found: CutSets | None = None, wanted: Wanted = Wanted()) -> tuple[Report, FaultsPart]:  # noqa: B008
    program, sources, _, singles = spare()
    report = faults_report(program, sources, singles, wanted, found or pairs())
    assert report.faults is not None
    return report, report.faults


def fails(program: Program, some: tuple[Fault, ...]) -> set[str]:
    """Names of what fails in a vehicle that has just these faults, each sometime."""
    verdicts = check_program(together(program, some)).verdicts
    assert all(each.kind in (Kind.FAILS, Kind.PROVED, Kind.NO_CASE) for each in verdicts)
    return {each.requirement.name for each in verdicts if each.kind is Kind.FAILS}


def test_just_those_that_fail_together_and_with_neither_alone() -> None:
    """Asked one after the other, each pair on a vehicle of its own."""
    program, _, some, _ = spare()
    asked = {each.name for each in program.requirements if not isinstance(each.form, Possible)} | {"no_short_circuit"}
    alone = {fault: fails(program, (fault,)) for fault in some}
    parted = [(a, b) for a, b in combinations(some, 2) if (a.kind, a.part) != (b.kind, b.part)]
    expected = {
        (name, f"{a.id} and {b.id}")
        for a, b in parted
        for name in (fails(program, (a, b)) - alone[a] - alone[b]) & asked
    }
    assert len(expected) >= 4
    _, part = reported()
    assert {(each.name, hit.fault) for each in part.pairs for hit in each.hits} == expected


def test_by_requirement() -> None:
    """Danger first, and in each the pairs of which more is hidden."""
    report, part = reported()
    assert [each.name for each in part.pairs] == ["quiet"]
    quiet = part.pairs[0]
    assert quiet.sentence == (
        "Pairs of faults with which it fails, though with neither alone: 4. Both hidden: 0. One hidden: 4. "
        "There are no others: proved for all situations, orders and timings."
    )
    first = quiet.hits[0]
    assert (first.fault, first.when, first.noticed, first.hidden) == (
        "left open and right open",
        "if both are there at some time",
        "one hidden: right open",
        False,
    )
    assert first.story == "at first left open is there and right open is there"
    assert "Pairs of faults that let a requirement fail, where neither alone does: 4. Both hidden: 0." in report.opening
    assert ", pairs 4: " in report.closing
    assert "two faults at a time" in part.cautions[0]
    none = (
        "Proved that no pair of the faults that were tried lets these fail unless one of the two alone does: "
        "calm, lit, no_short_circuit."
    )
    assert none in part.answer
    assert "Not asked about pairs, as these say what must be possible: dark." in part.answer


def test_hidden_ones_first() -> None:
    """Then those of which that is not known of one, then the noticed ones."""
    program, sources, some, singles = spare()
    tale = program.electrics.tell_tales[0]
    known = {"left open": Unclear(), "right open": Hidden(), "left_there dead": Hidden(), "right_there dead": Hidden()}
    notices = tuple(known.get(fault.id, Noticed(tale)) for fault in some)
    broken = Broken(singles.faults, singles.asked, (), singles.pairs, notices)
    report = faults_report(program, sources, broken, Wanted(), pairs())
    assert report.faults is not None
    assert [(hit.fault, hit.noticed) for hit in report.faults.pairs[0].hits] == [
        ("right open and left_there dead", "both hidden"),
        ("left_there dead and right_there dead", "both hidden"),
        ("left open and right open", "one hidden: right open; whether left open is noticed was not decided"),
        (
            "left open and right_there dead",
            "one hidden: right_there dead; whether left open is noticed was not decided",
        ),
    ]
    assert report.faults.pairs[0].hits[0].hidden


def test_whole_stories() -> None:
    """Of each pair, under its number; both faults have a row."""
    report, part = reported(wanted=Wanted(stories=True))
    assert report.why is not None
    number = part.pairs[0].hits[0].number
    section = report.why.sections[number - 1]
    assert section.title == (
        f"Story {number}: quiet fails with left open and right open, if both are there at some time"
    )
    assert section.table is not None
    assert [row.name for row in section.table.groups[0].rows] == ["left open", "right open"]


def test_the_story_that_hides_a_fault() -> None:
    """Told whole with the manner in which the fault is there; beside the fault stands its number."""
    report, part = reported(wanted=Wanted(stories=True))
    assert report.why is not None
    row = next(each for each in part.effects if (each.part, each.mode) == ("left", "grounded"))
    number = int(row.noticed.removeprefix("hidden, story "))
    section = report.why.sections[number - 1]
    assert section.title == (
        f"Story {number}: left grounded is hidden, if it breaks later: Lamp does not show it in time"
    )
    assert section.table is not None
    assert [row.name for row in section.table.groups[0].rows] == ["left grounded"]


def test_what_cannot_occur_when_nothing_is_broken_is_asked_too() -> None:
    """A fault can bring it about; that nothing else breaks it is not good news."""
    program, sources, _, singles = spare()
    assert singles.idle == {"calm", "quiet", "dark"}
    _, part = reported()
    assert (
        "These hold when nothing is broken, but say nothing then, since something in them can never be so; a fault may "
        "bring it about, so they are asked all the same: calm, quiet, dark." in part.answer
    )
    asked = tuple(each for each in singles.asked if each.name == "quiet")
    quiet = Broken(singles.faults, asked, (), (), singles.notices, idle=frozenset({"quiet"}))
    report = faults_report(program, sources, quiet, Wanted())
    assert report.outcome is Outcome.OPEN
    assert report.closing.endswith(": not all have a case when nothing is broken")


def test_no_time() -> None:
    """What is not decided is said, and the run is not good."""
    report, part = reported(pairs(0.0))
    assert part.pairs[0].sentence == (
        "No pair was found. Whether there is one was not decided. The time ran out; more: --budget SECONDS."
    )
    assert not any(each.startswith("Proved that no pair") for each in part.answer)
    assert report.outcome is not Outcome.GOOD
    assert "Requirements of which not all pairs are decided: 4." in report.opening


@pytest.mark.parametrize("begun", [False, True])
def test_interrupted(begun: bool) -> None:
    """What was found stays, and it is said that the run was interrupted; before pairs were begun, also that."""
    program, sources, some, singles = spare()

    def interrupts(_: str) -> None:
        raise KeyboardInterrupt

    cut = cut_sets(program, some, 2, ["quiet"], Budget(60), interrupts) if begun else None
    broken = Broken(some, singles.asked, (), singles.pairs, singles.notices, interrupted=not begun)
    report = faults_report(program, sources, broken, Wanted(pairs=True), cut)
    assert report.faults is not None
    assert report.opening.endswith("This run was interrupted.")
    assert ("The run was interrupted before pairs of faults were looked for." in report.faults.answer) is not begun
