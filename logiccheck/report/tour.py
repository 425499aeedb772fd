"""The report of a vehicle shown at work, and its stories as files."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.explain.asking import Answer, Blocked, Never, Open, Seen
from logiccheck.explain.bare import bare
from logiccheck.explain.touring import ANYTHING, Tour
from logiccheck.explain.touring import Shown as Toured
from logiccheck.lang.program import Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_tour as words
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read
from logiccheck.report.report import LinesPart, Outcome, Report, Shown
from logiccheck.report.saved import Saved, kept_story
from logiccheck.report.ways import Vehicle
from logiccheck.report.words_ways import why_open


@frozen
class _Line:
    """What becomes of something: one word for it, what is known, what is said if that is never so; how its story is
    called as a file, and what can be expected at its end."""

    word: str
    answer: Answer
    never: str
    file: str
    wanted: str


def tour_report(program: Program, sources: tuple[SourceFile, ...], found: Tour, deep: bool) -> Report:
    """Each thing that is switched with how it comes on and goes off; `deep`: with the whole stories."""
    base, files = basis(program, sources), files_read(sources)
    if found.whole is None:
        return Report(words.NOTHING, "", Outcome.FAILS, basis=base, files=files)
    on, off = (
        sum(isinstance(a, Seen) for a in some) for some in zip(*((s.on, s.off) for s in found.each), strict=True)
    )
    everything = [line.answer for shown in (found.whole, *found.each) for line in _lines(found, shown)]
    left = [answer for answer in everything if isinstance(answer, Open | Blocked)]
    file = sources[0].path
    parts = [_part(Vehicle(program, each.asked, sources), _lines(found, each), deep) for each in _all(found)]
    notes = [words.CLAIM, *hindered(file, left, found.interrupted, found.unsettled)]
    return Report(
        words.opening(program.label, on, off, len(found.each)),
        "",
        outcome(left, found.interrupted),
        tour=tuple(parts),
        notes=tuple(notes if deep else [*notes, words.how_to_see(file)]),
        basis=base,
        files=files,
    )


def tour_stories(program: Program, sources: tuple[SourceFile, ...], found: Tour) -> tuple[Saved, ...]:
    """Each story as a scenario that expects at its end what it shows."""
    kept = []
    for each in _all(found):
        vehicle = Vehicle(program, each.asked, sources)
        for line in _lines(found, each):
            if isinstance(line.answer, Seen):
                title, story = words.kept(vehicle.subject, line.word), bare(line.answer.story, vehicle.timers)
                kept.append(kept_story(vehicle.played, story, line.file, title, "", vehicle.files, line.wanted))
    return tuple(kept)


def _all(found: Tour) -> tuple[Toured, ...]:
    return found.each if found.whole is None else (found.whole, *found.each)


def _lines(found: Tour, shown: Toured) -> Iterator[_Line]:
    asked = shown.asked
    on, off, name = asked.yes, words.again(asked.no), asked.name
    if shown is found.whole:
        wanted = ("", "") if name == ANYTHING else (name, f"not {name}")
        yield _Line(words.START_UP, shown.on, words.NO_START_UP, "start_up", wanted[0])
        if shown.off is not None:
            yield _Line(words.SHUT_DOWN, shown.off, words.NO_SHUT_DOWN, "shut_down", wanted[1])
        return
    yield _Line(on, shown.on, words.never(asked.yes), f"{name}_on", name)
    if shown.off is not None:
        yield _Line(off, shown.off, words.stays(asked.yes), f"{name}_off", f"not {name}")


def _part(vehicle: Vehicle, lines: Iterator[_Line], deep: bool) -> LinesPart:
    """The second story, where it goes on from the first, is told from there on."""
    pairs: list[tuple[str, str]] = []
    shown: list[tuple[str, Shown]] = []
    before: tuple[str, ...] = ()
    for line in lines:
        if isinstance(line.answer, Seen):
            steps = tuple(vehicle.steps(line.answer.story))
            goes_on = before and steps[: len(before)] == before
            pairs.append((line.word, words.rest(steps[len(before) :]) if goes_on else words.story(steps)))
            before = steps
            if deep:
                laid = vehicle.shown(line.answer.story)
                shown.append((line.word, replace(laid, causes=())))
        else:
            pairs.append((line.word, line.never if isinstance(line.answer, Never) else why_open(line.answer)))
    name, label = vehicle.asked.name, vehicle.asked.label
    return LinesPart(name, label, tuple(pairs), tuple(shown))
