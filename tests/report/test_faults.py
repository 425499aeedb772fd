"""The report of single faults, of a small vehicle whose faults are each checked on a vehicle of its own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from logiccheck.copper.faults.answers import (
    Blocked,
    Broken,
    Fails,
    Hidden,
    Noticed,
    Open,
    Outcome,
    Pair,
    Unasked,
    Unclear,
)
from logiccheck.copper.faults.parts import When
from logiccheck.engine.verdict import Kind, Obstacle, Undecided
from logiccheck.lang.load import load
from logiccheck.lang.program import Program, TellTale
from logiccheck.lang.reading import SourceFile
from logiccheck.report.faults import Wanted, faults_report
from logiccheck.report.faults_part import EffectPart, EndangeredPart, FaultsPart, Severity
from logiccheck.report.report import Outcome as RunOutcome
from logiccheck.report.report import Report
from logiccheck.report.words_check import NOTHING_BREAKS
from logiccheck.report.words_faults import NO_LONGER
from tests.report.breaking import broken

BENCH = """\
vehicle "Bench"
world
    key       off | run
    door      contact
    engine    0 .. 7000 rpm
harness
    source plus
    wire key_wire   from plus when key is run
    wire door_wire  from plus when door
    wire wake
    diode key_wire -> wake
    diode door_wire -> wake
    wire crash_wire to ground when door
controller "Box" powered by wake
    sense key_on   from key_wire live
    sense crashed  from crash_wire grounded substitute on
    sense revs     from engine substitute 0 rpm
    output ignition when key_on
    output pump when revs above 300 rpm and not crashed
requirements
    danger    spark   never ignition while key is off
    function  starts  possible ignition
    damage    dry     never pump while engine at most 300 rpm
    function  lit     door calls for powered no later than 0.1 s
    function  fails   never ignition
"""
FAULTS = {
    "diode key_wire -> wake shorted",
    "door_wire open",
    "key_wire grounded",
    "key_on dead",
    "crashed lost",
    "crashed grounded",
    "revs high",
    "revs holding",
    "pump tripped",
    "plus dead",
}


@cache
def bench() -> tuple[Program, tuple[SourceFile, ...], Broken]:
    """The vehicle, its file, and what its faults do."""
    loaded = load("bench.circuit", lambda _: BENCH.encode())
    assert loaded.program is not None
    return loaded.program, loaded.files, broken(loaded.program, lambda fault: fault.id in FAULTS)


def reported(found: Broken | None = None, wanted: Wanted = Wanted()) -> tuple[Report, FaultsPart]:  # noqa: B008
    program, sources, all_found = bench()
    report = faults_report(program, sources, found or all_found, wanted)
    assert report.faults is not None
    return report, report.faults


def row(part: FaultsPart, fault: str) -> EffectPart:
    return next(each for each in part.effects if f"{each.part} {each.mode}" == fault)


def group(parts: tuple[EndangeredPart, ...], name: str) -> EndangeredPart:
    return next(each for each in parts if each.name == name)


def test_first_and_last_line() -> None:
    """One thing that breaks is enough: status 1. A short circuit that is the fault itself does not count."""
    report, _ = reported()
    assert report.opening == (
        "Bench: Single faults that can let something dangerous happen: 1 of 10. Hidden of these: 1."
    )
    assert report.closing == (
        "faults 10, danger 1, short circuit 1, damage 2, function 3, nothing fails 3, not all decided 0, "
        "hidden of all 10: "
        "one fault is enough for danger"
    )
    assert report.outcome is RunOutcome.FAILS


def test_what_stands_with_every_report() -> None:
    """Cautions; what was not asked; and not the limit that nothing breaks."""
    report, part = reported()
    assert len(part.cautions) == 4
    assert "Not proved when nothing is broken, and so not asked here: fails (fails)." in part.answer
    assert report.basis is not None
    assert NOTHING_BREAKS not in report.basis.limits
    assert report.basis.limits


def test_by_requirement() -> None:
    """Danger first; each fault with when, and the shortest story in one line."""
    _, part = reported()
    assert [each.name for each in part.endangered] == ["spark", "no_short_circuit", "dry", "starts", "lit"]
    spark = part.endangered[0]
    assert spark.sentence == "Single faults with which it fails: 1. Hidden: 1."
    assert spark.place == "bench.circuit:21"
    assert [(hit.fault, hit.when, hit.story) for hit in spark.hits] == [
        ("diode key_wire -> wake shorted", "from the start or later", "at first door is on")
    ]
    holding = next(hit for hit in group(part.endangered, "dry").hits if hit.fault == "revs holding")
    assert holding.when == "from the start or later"
    assert holding.story == "at first engine is 1000 rpm and key is run; at 1 h engine goes to 0 rpm"
    assert group(part.endangered, "starts").brief
    assert [hit.story for hit in group(part.endangered, "starts").hits] == [NO_LONGER] * 2


def test_by_part() -> None:
    """What the part itself does, which requirements fail, the worst of them, and who notices."""
    _, part = reported()
    assert {f"{each.part} {each.mode}" for each in part.effects} == FAULTS
    assert row(part, "diode key_wire -> wake shorted").severity is Severity.DANGER
    assert row(part, "key_on dead") == EffectPart(
        part="key_on",
        label="",
        kind="sense",
        place="bench.circuit:15",
        mode="dead",
        local="it reads off",
        ends=("starts fails from the start",),
        severity=Severity.FUNCTION,
        noticed="hidden",
        hidden=True,
    )
    assert row(part, "crashed grounded").local == "it reads on"
    assert row(part, "crashed lost").local == "it reads on"
    assert row(part, "revs high").local == "it reads 7000 rpm"
    assert row(part, "pump tripped").ends == ("nothing fails that was asked",)
    assert row(part, "key_wire grounded").severity is Severity.SHORT
    assert row(part, "key_wire grounded").ends == ("no_short_circuit fails from the start or later",)


def test_whole_stories() -> None:
    """Each has a number; the fault has a row of its own, and what it makes read otherwise has none."""
    report, part = reported(wanted=Wanted(stories=True))
    assert report.why is not None
    told = {hit.number for each in part.endangered for hit in each.hits if not each.brief}
    assert told == set(range(1, len(report.why.sections) + 1))
    titles = [section.title for section in report.why.sections]
    assert titles[0] == "Story 1: spark fails with diode key_wire -> wake shorted, from the start or later"
    holding = report.why.sections[titles.index(next(title for title in titles if "holding" in title))]
    assert holding.table is not None
    assert holding.table.groups[0].title == "fault"
    assert [each.name for each in holding.table.groups[0].rows] == ["revs holding"]
    names = {each.name for each in holding.table.groups[-1].rows}
    assert "revs" not in names
    assert "pump" in names


def test_nothing_told_briefly() -> None:
    """Where one requirement is asked for."""
    _, part = reported(wanted=Wanted(all_lines=True))
    assert not any(each.brief for each in part.endangered)


def of(found: Broken, fault: str, requirement: str) -> Pair:
    return next(each for each in found.pairs if (each.fault.id, each.requirement.name) == (fault, requirement))


def with_outcomes(fault: str, requirement: str, **outcomes: Outcome) -> Broken:
    """What was found, and of one pair something else."""
    found = bench()[2]
    old = of(found, fault, requirement)
    return replace(found, pairs=tuple(replace(each, **outcomes) if each is old else each for each in found.pairs))


def test_only_as_a_loose_contact() -> None:
    """Where the break at the worst moment is proved to be harmless; where it is not decided, that is not said."""
    _, part = reported(with_outcomes("door_wire open", "dry", loose=Fails(None)))
    assert row(part, "door_wire open").ends[0] == "dry fails only if it comes and goes"
    _, part = reported(with_outcomes("door_wire open", "dry", later=Open(), loose=Fails(None)))
    assert row(part, "door_wire open").ends[0] == "dry fails if it comes and goes"


@pytest.mark.parametrize(
    ("outcome", "why"),
    [
        (Open(Undecided.BUDGET), "not decided: the time ran out (more: --budget SECONDS)"),
        (Blocked(Obstacle.UNSETTLED), "no answer: with this fault the rules or relays can chase each other for ever"),
    ],
)
def test_not_decided(outcome: Outcome, why: str) -> None:
    """It is neither proved nor failing, and the run is not good."""
    report, part = reported(with_outcomes("pump tripped", "lit", later=outcome))
    assert row(part, "pump tripped").severity is Severity.OPEN
    assert row(part, "pump tripped").ends == (f"{why}: lit",)
    assert group(part.endangered, "lit").open == (f"{why}: pump tripped",)
    assert "Not all decided: 1." in report.opening
    found = with_outcomes("pump tripped", "lit", later=outcome)
    found = replace(found, pairs=tuple(each for each in found.pairs if each.requirement.name == "lit"), unasked=())
    assert reported(found)[0].outcome is RunOutcome.OPEN


def test_all_is_well() -> None:
    """No fault is enough for danger, and all is decided."""
    found = bench()[2]
    found = replace(found, pairs=tuple(each for each in found.pairs if each.requirement.name in ("starts", "lit")))
    assert reported(replace(found, unasked=()))[0].outcome is RunOutcome.GOOD
    assert reported(found)[0].outcome is RunOutcome.OPEN  # one requirement was not asked


def test_danger_without_any_fault() -> None:
    """It is said first and last, and the run fails."""
    found = bench()[2]
    spark = found.asked[0]
    report, _ = reported(replace(found, pairs=(), unasked=(Unasked(spark, Kind.FAILS),)))
    assert report.opening.endswith("Requirements against danger that fail when nothing is broken: 1.")
    assert report.closing.endswith(": there is danger without any fault")
    assert report.outcome is RunOutcome.FAILS


def test_noticed() -> None:
    """By a tell-tale, under its label or as written; or not; or that is not known."""
    program, _, found = bench()
    lamp = TellTale(program.requirements[0].form.p, 5_000_000, None, "ignition and door", "Lamp")  # type: ignore[union-attr]
    notices = (Noticed(lamp), Noticed(replace(lamp, label="")), Unclear(), Hidden(When.LOOSE), Hidden(When.START))
    report, part = reported(replace(found, notices=(*notices, *found.notices[len(notices) :])))
    assert [each.noticed for each in part.effects][:5] == [
        "noticed: Lamp within 5 s",
        "noticed: ignition and door within 5 s",
        "whether it is noticed was not decided",
        "hidden",
        "hidden",
    ]
    assert [each.hidden for each in part.effects][:5] == [False, False, False, True, True]
    assert "hidden of all 7" in report.closing


def test_nothing_to_ask() -> None:
    """No requirement of the file is proved: said, and as bad as where nothing is asked."""
    program, sources, found = bench()
    report = faults_report(program, sources, replace(found, asked=found.asked[-1:], pairs=()), Wanted())
    assert report.outcome is RunOutcome.FAILS
    assert report.opening == (
        "No requirement was proved when nothing is broken, so there is nothing to ask. "
        "See: logiccheck check bench.circuit"
    )
