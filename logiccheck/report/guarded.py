"""The report of small edits: those that no requirement would notice, grouped by what they show in, the worst first."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher

from logiccheck.base.span import Span
from logiccheck.engine.verdict import Kind, Obstacle, Trouble, Verdict
from logiccheck.explain.edit import Change
from logiccheck.explain.guarding.deciding import NoEffect, Open, Unnoticed
from logiccheck.explain.guarding.guarding import Guarded, Tried
from logiccheck.explain.guarding.noticing import Noticed
from logiccheck.explain.guarding.ranking import ranks
from logiccheck.explain.guarding.small import Does, Small
from logiccheck.explain.guarding.suggesting import KINDS, Suggested
from logiccheck.explain.guarding.unlike import Difference
from logiccheck.lang.program import Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_guarded as words
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.durations import said
from logiccheck.report.excerpt import excerpt
from logiccheck.report.mended import edit_lines
from logiccheck.report.report import Cause, Excerpt, Outcome, Report, WhyPart, WhySection
from logiccheck.report.stories import replay, shown

_DROPS = (Does.DROPS, Does.NO_TIME, Does.FORGETS)


def guarded_report(
    program: Program,
    sources: Sequence[SourceFile],
    verdicts: Sequence[Verdict],
    guarded: Guarded,
    stories: bool,
) -> Report:
    """What became of the edits; `verdicts` are those on the vehicle as it is; `stories`: each is shown."""
    files = texts(sources)
    tally = _tally(guarded)
    part = WhyPart(
        answer=tuple(_answer(tally, verdicts, stories)),
        sections=tuple(_sections(program, files, guarded, stories)),
        counted=_counted(guarded),
    )
    return Report(
        words.opening(tally),
        words.closing(tally),
        _outcome(tally),
        why=part,
        basis=basis(program, sources),
        files=files_read(sources),
    )


def blocked_report(program: Program, sources: Sequence[SourceFile], troubles: Sequence[Trouble]) -> Report:
    """Nothing can be said while something blocks verdicts, or may."""
    if {trouble.obstacle for trouble in troubles} - {Obstacle.UNSETTLED_UNKNOWN}:
        said, outcome = words.BLOCKED, Outcome.FAILS
    else:
        said, outcome = words.NOT_SETTLED, Outcome.OPEN
    return Report(said, said, outcome, basis=basis(program, sources), files=files_read(sources))


def _tally(guarded: Guarded) -> words.Tally:
    kinds = [type(each.decision) for each in guarded.tried]
    count = {kind: kinds.count(kind) for kind in (Noticed, NoEffect, Unnoticed, Open, type(None))}
    return words.Tally(count[Noticed], count[NoEffect], count[Unnoticed], count[Open], count[type(None)], guarded.left)


def _outcome(tally: words.Tally) -> Outcome:
    if tally.unnoticed:
        return Outcome.FAILS
    return Outcome.OPEN if tally.undecided or tally.left else Outcome.GOOD


def _answer(tally: words.Tally, verdicts: Sequence[Verdict], stories: bool) -> Iterator[str]:
    open_ = [each.requirement.name for each in verdicts if each.kind not in (Kind.PROVED, Kind.NO_CASE)]
    if open_:
        yield words.unproved(open_)
    idle = [each.requirement.name for each in verdicts if each.kind is Kind.NO_CASE]
    if idle:
        yield words.no_case(idle)
    if tally.skipped:
        yield words.skipped(tally.skipped)
    yield f"{words.SCENARIOS} {words.BUILT_IN}"
    if tally.unnoticed and not stories:
        yield words.STORIES


def _counted(guarded: Guarded) -> str:
    alone = any(isinstance(each.decision, Unnoticed) and each.suggested is None for each in guarded.tried)
    return f"{words.COUNTED} {words.kinds_tried(KINDS)}" if alone else words.COUNTED


def _sections(program: Program, files: Mapping[str, str], guarded: Guarded, stories: bool) -> Iterator[WhySection]:
    labels = {relay.name: relay.label for relay in program.relays} | {load.name: load.label for load in program.loads}
    labels |= {each.name: each.label for each in (program.box.outputs if program.box is not None else ())}
    number = 0
    known: dict[Suggested, int] = {}
    for name, group in _groups(program, guarded):
        told: list[WhySection] = []
        causes: list[Cause] = []
        for each, found in group:
            number += 1
            causes += _unnoticed(number, each.small, found.difference, files)
            causes.append(_suggested(each.suggested, number, known))
            if stories:
                told.append(_story(program, number, found, files))
        yield WhySection(words.group(name, labels.get(name, "")), causes=tuple(causes))
        yield from told
    yield from _others(guarded.tried, files)


def _others(tried: Sequence[Tried], files: Mapping[str, str]) -> Iterator[WhySection]:
    """The edits without effect, and those that are not decided."""
    none = [each.small for each in tried if isinstance(each.decision, NoEffect)]
    if none:
        lines = (Cause(words.without_effect(small.does), _line(small, files)) for small in none)
        yield WhySection(words.NO_EFFECT, causes=tuple(lines))
    open_ = [(each.small, each.decision) for each in tried if isinstance(each.decision, Open)]
    if open_:
        lines = (Cause(words.undecided(small.does, found.asked), _line(small, files)) for small, found in open_)
        yield WhySection(words.NOT_DECIDED, causes=tuple(lines))


def _suggested(found: Suggested | None, number: int, known: dict[Suggested, int]) -> Cause:
    """What would notice; said once."""
    if found is None:
        return Cause(words.NONE_SUGGESTED, None)
    first = known.setdefault(found, number)
    return Cause(words.suggested(found.text, first if first != number else 0), None)


def _groups(program: Program, guarded: Guarded) -> list[tuple[str, list[tuple[Tried, Unnoticed]]]]:
    """By the output, relay or load that matters most of those in which the edit shows; that which guards against danger
    first."""
    order = ranks(program)
    groups: dict[str, list[tuple[Tried, Unnoticed]]] = {}
    for each in guarded.tried:
        if isinstance(each.decision, Unnoticed):
            worst = min(each.decision.difference.names, key=lambda name: order[name])
            groups.setdefault(worst, []).append((each, each.decision))
    return sorted(groups.items(), key=lambda group: order[group[0]])


def _line(small: Small, files: Mapping[str, str]) -> Excerpt | None:
    """The user's line as it is, with what goes marked, where something is dropped, or nothing is left of it; else as
    the edit makes it."""
    gone = [span for change in small.edit.changes for span in _gone(change, files)] if small.does in _DROPS else []
    if gone:
        return excerpt(gone, files)
    lines = next(iter(edit_lines(small.edit, files)), None)
    if lines is None or not any(line.text.strip() for line in lines.lines):
        return excerpt([change.span for change in small.edit.changes], files)
    return lines


def _gone(change: Change, files: Mapping[str, str]) -> Iterator[Span]:
    """The words that a change takes out; none where it does more than that."""
    span = change.span
    words_of = re.compile(r"[\w.]+|\S")
    old = [*words_of.finditer(files[span.file], span.begin, span.end)]
    new = words_of.findall(change.text)
    steps = SequenceMatcher(None, [each[0] for each in old], new, autojunk=False).get_opcodes()
    if all(step[0] in ("equal", "delete") for step in steps):
        taken = ((begin, end) for tag, begin, end, *_ in steps if tag == "delete")
        yield from (Span(span.file, old[begin].start(), old[end - 1].end()) for begin, end in taken)


def _unnoticed(number: int, small: Small, found: Difference, files: Mapping[str, str]) -> Iterator[Cause]:
    time = found.story.steps[-1].time
    when = words.at(said(time)) if time else words.at_first()
    yield Cause(words.unnoticed(number, small.does, when, found.on, found.off), _line(small, files))


def _story(program: Program, number: int, found: Unnoticed, files: Mapping[str, str]) -> WhySection:
    difference = found.difference
    told = shown(program, replay(program, difference.story, None), difference.names, files)
    return WhySection(words.story(number, found.shortest), told.remarks, table=told.table)
