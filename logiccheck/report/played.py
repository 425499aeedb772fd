"""The report of scenarios that were played: what happened, and whether it is what was expected."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logiccheck.lang.gather import SourceFile
from logiccheck.lang.program import (
    AfterLasting,
    ChangesOnlyWhile,
    Excluded,
    LastsAtLeast,
    LastsAtMost,
    Number,
    Program,
    Switch,
)
from logiccheck.model.judge import Broken
from logiccheck.report import words_played as words
from logiccheck.report.basis import colophon, texts
from logiccheck.report.durations import said
from logiccheck.report.excerpt import as_written, excerpt
from logiccheck.report.report import Basis, ExpectationPart, Outcome, PlayedPart, Report, Table
from logiccheck.report.stories import AT_FIRST, chase
from logiccheck.report.table import Frame, table
from logiccheck.report.values import things
from logiccheck.study.simulate import Judged, Simulation


def play_report(program: Program, sources: tuple[SourceFile, ...], simulations: Sequence[Simulation]) -> Report:
    """Every scenario with its whole table and all its expectations; a run that expected nothing has failed nothing."""
    files = texts(sources)
    parts = tuple(played_part(program, simulation, files, whole=True) for simulation in simulations)
    expected = sum(len(part.expectations) for part in parts)
    met = sum(each.met for part in parts for each in part.expectations)
    stuck = sum(not simulation.timeline.settles for simulation in simulations)
    return Report(
        opening=words.opening(program.label, len(parts), met, expected, stuck),
        closing=words.closing(len(parts), met, expected, stuck),
        outcome=Outcome.FAILS if met < expected or stuck or not parts else Outcome.GOOD,
        played=parts,
        basis=Basis((), (), words.CAUTION, colophon(sources)),
    )


def played_part(program: Program, simulation: Simulation, files: Mapping[str, str], whole: bool) -> PlayedPart:
    """One scenario with its expectations, and with its table if it is to be shown whole."""
    judged = simulation.expectations
    return PlayedPart(
        name=simulation.scenario.name,
        label=simulation.scenario.label,
        sentence=words.expectations(sum(each.held for each in judged), len(judged)),
        table=_table(program, simulation) if whole else None,
        expectations=tuple(_expectation(each, files) for each in judged),
        remarks=tuple(_remarks(simulation, files)),
    )


def _expectation(judged: Judged, files: Mapping[str, str]) -> ExpectationPart:
    each = judged.expectation
    time = said(each.time) if each.until is None else words.stretch(said(each.time), said(each.until))
    return ExpectationPart(
        met=judged.held,
        sentence=words.expectation(time, each.text, judged.held),
        excerpt=None if judged.held else excerpt([each.span], files),
    )


def _table(program: Program, simulation: Simulation) -> Table:
    """All moments; of the signals those that change, and the world."""
    frames: list[Frame] = []
    for played in simulation.timeline.played:
        title = AT_FIRST if played.time == 0 else said(played.time)
        if played.moment.settles:
            frames.append(Frame(title, played.moment.settled.values, played.time, played.due))
        else:
            frames.extend(chase(title, played.moment, played.time))
    return table(program, frames, [thing.name for thing in things(program)])


def _remarks(simulation: Simulation, files: Mapping[str, str]) -> Iterator[str]:
    if not simulation.timeline.settles:
        yield words.never_settles(said(simulation.timeline.end))
    for time in simulation.wakings:
        yield words.woke_within(said(time))
    for warning in simulation.warnings:
        yield words.breaks_given(said(warning.instant.time), _given(warning, files))
    for run in simulation.unused:
        yield words.unused_run(run.key, said(run.start))


def _given(warning: Broken, files: Mapping[str, str]) -> str:
    match warning.what:
        case Switch(name=name):
            return words.one_by_one(name)
        case Number(name=name):
            return words.without_jumps(name)
        case Excluded() | LastsAtLeast() | LastsAtMost() | ChangesOnlyWhile() | AfterLasting():
            return warning.what.text
        case _:
            return as_written(warning.what, files)
