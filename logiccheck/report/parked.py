"""The report of the battery of a parked vehicle, and the stories in it as files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from logiccheck.copper.resting.resting import Drained, Resting
from logiccheck.copper.resting.ways import Way
from logiccheck.copper.tables.table import Table
from logiccheck.explain.asking import Never
from logiccheck.explain.situation import Asked
from logiccheck.lang.program import Or, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_parked as words
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read
from logiccheck.report.durations import said
from logiccheck.report.report import Outcome, Report, WhyPart, WhySection
from logiccheck.report.saved import Saved, kept_story
from logiccheck.report.ways import Vehicle
from logiccheck.report.words_sizing import source as from_where

MOST_OTHERS = 5  # ways beside the worst that are told


def not_said_report(program: Program, sources: tuple[SourceFile, ...]) -> Report:
    """The file does not say when the vehicle is parked."""
    return _report(program, sources, words.NOT_SAID, Outcome.FAILS)


def parked_report(program: Program, sources: tuple[SourceFile, ...], found: Resting, stories: bool) -> Report:
    """The worst of each source; `stories`: with the whole story of it."""
    if not found.drained:
        return _report(program, sources, words.NOTHING, Outcome.FAILS)
    file = sources[0].path
    vehicle = _vehicle(program, sources, found)
    sections = [_section(vehicle, each, stories) for each in found.drained if each.ways]
    notes = [words.WHAT, words.RATHER]
    notes += [words.silent(found.silent)] if found.silent else []
    notes += [words.unfed(found.unfed)] if found.unfed else []
    notes += [words.several(several)] if (several := _several(found)) else []
    long = tuple(dict.fromkeys(key for each in found.drained for key in each.long))
    notes += [words.long(long)] if long else []
    notes += [words.restless(found.restless)] if found.restless else []
    notes += hindered(file, found.left, found.interrupted, found.unsettled)
    notes += [words.how_to_see(file)] if sections and not stories else []
    tables = dict.fromkeys(table for each in found.drained for table in _tables(each))
    lines = tuple(from_where(table) for table in tables)
    if lines:
        sections.append(WhySection(words.SOURCES, lines))
    if isinstance(found.stays, Never):
        opening = words.never_parked(program.label)
    else:
        opening = words.opening(
            program.label, [_drained(each) for each in found.drained], not (found.silent or found.unfed or long)
        )
    part = WhyPart((), sections=tuple(sections))
    return _report(program, sources, opening, _outcome(found), part, notes)


def parked_stories(program: Program, sources: tuple[SourceFile, ...], found: Resting) -> tuple[Saved, ...]:
    """The stories of all ways found, as scenarios."""
    vehicle = _vehicle(program, sources, found)
    kept = []
    for each in found.drained:
        name = each.tap.feed.name
        for at, way in enumerate(each.ways, start=1):
            title = words.kept(name, at)
            kept.append(kept_story(vehicle.played, way.story, f"parked_{name}_{at}", title, "", vehicle.files))
    return tuple(kept)


def _report(
    program: Program,
    sources: tuple[SourceFile, ...],
    opening: str,
    outcome: Outcome,
    part: WhyPart | None = None,
    notes: Sequence[str] = (),
) -> Report:
    base, files = basis(program, sources), files_read(sources)
    return Report(opening, "", outcome, why=part, notes=tuple(notes), basis=base, files=files)


def _vehicle(program: Program, sources: tuple[SourceFile, ...], found: Resting) -> Vehicle:
    """The vehicle, and as what is asked about all that draws."""
    on = Or(tuple(draw.on for each in found.drained for draw, _ in each.tap.taken))
    parked = program.electrics.parked
    return Vehicle(program, Asked("parked", "", on if parked is None else Or((on, parked))), sources)


def _outcome(found: Resting) -> Outcome:
    """Not decided, too, where a current or a time is not known."""
    if isinstance(found.stays, Never):
        return Outcome.FAILS
    whole = outcome(found.left, found.interrupted or bool(found.bugs), found.unsettled)
    if whole is not Outcome.GOOD:
        return whole
    known = all(each.exact and (each.charge is not None or not each.worst) and not each.long for each in found.drained)
    return Outcome.GOOD if known and not found.silent and not found.unfed else Outcome.OPEN


def _drained(each: Drained) -> str:
    source, charge = each.tap.feed.label or each.tap.feed.name, each.charge
    if not each.ways:
        return words.nothing_found(source, each.most)
    known = None if charge is None else words.lasts(charge.days(each.most), charge.days(each.worst))
    loses = charge is not None and charge.lost is not None
    return words.drained(source, each.worst, each.most, known or words.NOT_KNOWN_HOW_LONG, loses)


def _several(found: Resting) -> tuple[str, ...]:
    """What draws from more than one source, in the worst ways that were found."""
    names = [draw.name for each in found.drained if each.ways for draw, _ in each.ways[0].drawn]
    return tuple(name for name in dict.fromkeys(names) if names.count(name) > 1)


def _section(vehicle: Vehicle, each: Drained, stories: bool) -> WhySection:
    worst, feed = each.ways[0], each.tap.feed
    title = feed.name if feed.label in ("", feed.name) else f'{feed.name} "{feed.label}"'
    sentences = tuple(_sentences(vehicle, each, worst))
    if not stories:
        return WhySection(title, sentences)
    shown = vehicle.shown(worst.story, [draw.on for draw, _ in worst.drawn])
    return WhySection(title, (*sentences, *shown.remarks), table=shown.table)


def _sentences(vehicle: Vehicle, each: Drained, worst: Way) -> Iterator[str]:
    yield words.draws([words.takes(draw, share) for draw, share in worst.drawn], each.worst)
    yield words.story(tuple(vehicle.steps(worst.story)))
    later = worst.begin > worst.story.steps[-1].time
    period = None if worst.period is None else said(Fraction(worst.period))
    yield words.stays(said(Fraction(worst.begin)) if later else None, period)
    yield words.how_sure(len(each.ways), each.exact, each.most)
    if each.ways[1:]:
        told = each.ways[1 : MOST_OTHERS + 1]
        yield words.others([words.other(way.average, [draw.name for draw, _ in way.drawn]) for way in told])
    yield from _battery(each)


def _battery(each: Drained) -> Iterator[str]:
    charge = each.charge
    if charge is None:
        yield words.no_battery(each.tap.feed.name)
        return
    yield words.charge(charge.usable, charge.full, charge.kept, charge.usual)
    yield words.loses(charge.lost, charge.temperature)
    if charge.limit is not None:
        yield words.limit(charge.limit, each.worst)
    yield words.volts(charge.kept, *charge.volts)


def _tables(each: Drained) -> tuple[Table, ...]:
    return () if each.charge is None else each.charge.basis
