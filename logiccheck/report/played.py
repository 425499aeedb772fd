"""The report of scenarios that were played: what happened, and whether it is what was expected."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.program import (
    AfterLasting,
    ChangesOnlyWhile,
    Excluded,
    Expectation,
    Expr,
    LastsAtLeast,
    LastsAtMost,
    Number,
    Program,
    Switch,
)
from logiccheck.lang.reading import SourceFile
from logiccheck.model.judge import Broken, violated
from logiccheck.model.signals import Instant
from logiccheck.model.story import Run
from logiccheck.report import words_played as words
from logiccheck.report.bars import Bars
from logiccheck.report.basis import colophon, files_read, texts
from logiccheck.report.chart import Chart
from logiccheck.report.charts import chart
from logiccheck.report.durations import said
from logiccheck.report.excerpt import excerpt, in_a_sentence, where
from logiccheck.report.involved import named
from logiccheck.report.report import Basis, Breach, ExpectationPart, Outcome, PlayedPart, Report, Table
from logiccheck.report.stories import AT_FIRST, chase, shorted
from logiccheck.report.table import Frame, steady_hands, table
from logiccheck.report.timing import bars
from logiccheck.report.values import things
from logiccheck.report.words_stories import all_along
from logiccheck.report.words_verdict import short_circuit, went_wrong
from logiccheck.study.simulate import Simulation


@frozen
class Shape:
    """How a scenario is shown: as `bars` or as a table; `everything`: with what never changes, too."""

    bars: bool = True
    everything: bool = False


AS_BARS = Shape()


def play_report(
    program: Program, sources: tuple[SourceFile, ...], simulations: Sequence[Simulation], shape: Shape = AS_BARS
) -> Report:
    """Every scenario as a whole, all its expectations, and what it breaks; a run that expected nothing and broke
    nothing has failed nothing.
    """
    files = texts(sources)
    parts = tuple(played_part(program, simulation, files, shape) for simulation in simulations)
    expected = sum(len(simulation.expectations) for simulation in simulations)
    tally = words.Tally(
        scenarios=len(parts),
        met=sum(part.met for part in parts),
        expected=expected,
        stuck=sum(not simulation.timeline.settles for simulation in simulations),
        broken=sum(breach.counts for part in parts for breach in part.breaches),
    )
    failed = tally.met < expected or tally.stuck or tally.broken or not parts
    return Report(
        opening=words.opening(program.label, tally),
        closing=words.closing(tally),
        outcome=Outcome.FAILS if failed else Outcome.GOOD,
        played=parts,
        basis=Basis((), (), words.CAUTION, colophon(sources)),
        files=files_read(sources),
    )


def played_part(program: Program, simulation: Simulation, files: Mapping[str, str], shape: Shape | None) -> PlayedPart:
    """One scenario with its expectations; with what happens and the requirements it breaks if it has a shape."""
    judged, whole = simulation.expectations, shape is not None
    curves = chart(program, simulation.timeline) if whole else None
    return PlayedPart(
        name=simulation.scenario.name,
        label=simulation.scenario.label,
        sentence=words.expectations(sum(each.held for each in judged), len(judged)),
        table=_table(program, simulation, shape.everything) if shape else None,
        met=sum(each.held for each in judged),
        expectations=tuple(_expectations(simulation, files)),
        remarks=tuple(_remarks(program, simulation, whole)),
        breaches=tuple(_breaches(program, simulation, files)) if whole else (),
        place=where(simulation.scenario.span, files),
        chart=curves,
        bars=_bars(simulation, curves, shape) if shape and curves else None,
    )


def _breaches(program: Program, simulation: Simulation, files: Mapping[str, str]) -> Iterator[Breach]:
    """The requirements that the scenario breaks: how, and whether that is so before it breaks what is given."""

    def say(expr: Expr) -> str:
        return in_a_sentence(expr, files)

    unlawful = min((warning.instant for warning in simulation.warnings), default=None)
    for requirement in program.requirements:
        end = violated(simulation.timeline, requirement.form)
        if end is not None:
            title = words.breaks(requirement.name, requirement.text)
            yield _breach(title, went_wrong(requirement.form, say, end), end, unlawful)
    for moment in simulation.timeline.settled:
        if wires := shorted(program, moment.moment.settled.values):
            title, end = words.breaks(SHORT_CIRCUIT, words.SHORT_CIRCUIT), Instant(moment.time)
            yield _breach(title, short_circuit(wires, end), end, unlawful)
            return


def _breach(title: str, wrong: str, end: Instant, unlawful: Instant | None) -> Breach:
    counts = unlawful is None or end < unlawful
    return Breach(title, wrong if counts else words.ruled_out(wrong), counts)


def _expectations(simulation: Simulation, files: Mapping[str, str]) -> Iterator[ExpectationPart]:
    """Those that are met at one time together, those that are not each alone, with its line and the reason."""
    from logiccheck.report.unmet import why_not  # loads what explains, which nothing else here needs

    by_time = groupby(simulation.expectations, key=lambda each: (_time(each.expectation), each.held))
    for (time, held), group in by_time:
        if held:
            texts_met = [each.expectation.text for each in group]
            same = ", ".join(texts_met)
            called = tuple(words.named(time, text) for text in texts_met)
            yield ExpectationPart(True, words.expectation(time, same, True), None, called)
            continue
        for each in group:
            expected = each.expectation
            sentence = words.expectation(time, expected.text, False)
            if expected.until is not None and each.breaks is not None:
                sentence = words.first_not_so(sentence, said(each.breaks.time), each.breaks.after)
            called = (words.named(time, expected.text),)
            why = why_not(simulation.timeline, each, files)
            yield ExpectationPart(False, sentence, excerpt([expected.span], files), called, why)


def _time(expectation: Expectation) -> str:
    begin, end = expectation.time, expectation.until
    return words.at(said(begin)) if end is None else words.stretch(said(begin), said(end))


def _frames(simulation: Simulation) -> Iterator[Frame]:
    """All moments; of the last, where it never settles, the rounds."""
    for played in simulation.timeline.played:
        title = AT_FIRST if played.time == 0 else said(played.time)
        if played.moment.settles:
            yield Frame(title, played.moment.settled.values, played.time, played.due)
        else:
            yield from chase(title, played.moment, played.time)


def _bars(simulation: Simulation, curves: Chart, shape: Shape) -> Bars | None:
    """None where there is only one moment, or where the rounds of one that never settles are to be seen."""
    if not shape.bars or not curves.settles or len(curves.moments) == 1:
        return None
    expected = named(each.p for each in simulation.scenario.expectations)
    return bars(curves, simulation.timers, expected, shape.everything)


def _table(program: Program, simulation: Simulation, everything: bool) -> Table:
    """All moments, and of the signals those that change; of a single moment all signals, as nothing changes in it."""
    frames = list(_frames(simulation))
    names = [thing.name for thing in things(program)]
    runs = [
        Run(run.key, Fraction(run.start), Fraction(run.end - run.start))
        for run in simulation.timers
        if run.due and run.end is not None
    ]
    return table(program, frames, names, names if everything or len(frames) == 1 else (), runs)


def _remarks(program: Program, simulation: Simulation, whole: bool) -> Iterator[str]:
    frames = list(_frames(simulation))
    if whole and len(frames) > 1:
        yield from all_along(steady_hands(program, frames, [thing.name for thing in things(program)]))
    if not simulation.timeline.settles:
        yield words.never_settles(said(simulation.timeline.end))
    for time in simulation.wakings:
        yield words.woke_within(said(time))
    for warning in simulation.warnings:
        if given := _given(warning):
            yield words.breaks_given(said(warning.instant.time), given)
    for run in simulation.unused:
        yield words.unused_run(run.key, said(run.start))


def _given(warning: Broken) -> str:
    """What is broken, in the user's words; nothing for `at first`, which a scenario is free to set otherwise."""
    match warning.what:
        case Switch(name=name):
            return words.one_by_one(name)
        case Number(name=name):
            return words.without_jumps(name)
        case Excluded() | LastsAtLeast() | LastsAtMost() | ChangesOnlyWhile() | AfterLasting():
            return warning.what.text
        case _:
            return ""
