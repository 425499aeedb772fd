"""Findings as parts of a report, and the report of a lint alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from logiccheck.explain.accepting import Accepting, Word
from logiccheck.explain.finding import Finding
from logiccheck.lang.program import Const, Guard, Never, Possible, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.model.signals import Instant
from logiccheck.model.story import Story
from logiccheck.report import words_lint as words
from logiccheck.report.accepted import accepted_notes, accepted_part, in_vain, to_accept
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.notices import notice
from logiccheck.report.report import Notice, Outcome, Report, Shown
from logiccheck.report.stories import Replay, replay, shown
from logiccheck.study.findings import Linted

DANGERS = frozenset({Guard.DANGER})
ALL = frozenset(Guard)
NOBODY = Accepting()


def found(
    program: Program, linted: Linted, accepting: Accepting, files: Mapping[str, str], counting: frozenset[Guard]
) -> tuple[Notice, ...]:
    """One notice a finding; those that guard against what is in `counting`, and that nobody accepts, make that the run
    is not good."""
    return tuple(
        _notice(program, finding, accepting.of_finding(at), files, counting)
        for at, finding in enumerate(linted.findings)
    )


def _notice(
    program: Program, finding: Finding, word: Word, files: Mapping[str, str], counting: frozenset[Guard]
) -> Notice:
    return replace(
        notice(finding.diagnostic, files),
        guards=words.GUARDS[finding.guards],
        shown=None if finding.story is None else _shown(program, finding, finding.story, files),
        about=finding.signals,
        counts=finding.guards in counting and not word.holds,
        accepted=accepted_part(word, files),
        to_accept=to_accept(word, finding.message.name, "".join(finding.signals[:1])),
    )


def _shown(program: Program, finding: Finding, story: Story, files: Mapping[str, str]) -> Shown:
    """The story as a witness is shown: what it is about, and what has to be so for it; what passes, in the reaction in
    which it is so."""
    played = replay(program, story, None)
    end = Instant(played.end.time)
    if finding.passing is not None:
        form = Never(finding.passing, None, always=False, instant=True)
        told = shown(program, Replay(story, form, played.timeline, end), finding.signals, files)
        return replace(told, causes=())
    witness = Replay(story, Possible(Const(True)), played.timeline, end)
    return shown(program, witness, finding.signals, files)


def unaccepted(linted: Linted, accepting: Accepting) -> Counter[Guard]:
    """How many of the findings that nobody accepts guard against what."""
    held = enumerate(linted.findings)
    return Counter(finding.guards for at, finding in held if not accepting.of_finding(at).holds)


def notes(linted: Linted, option: str) -> Iterator[str]:
    """What is to be said beside the findings; `option` gives it more time."""
    if linted.findings:
        yield words.counted(len(linted.findings))
    if linted.obstacle is not None:
        yield words.in_the_way(linted.obstacle)
    elif linted.undecided:
        yield words.undecided(linted.undecided)
    if linted.out_of_time:
        yield words.out_of_time(option)
    if linted.unfinished:
        yield words.unfinished(linted.unfinished)
    if not linted.situations:
        yield words.TEXT_ONLY


def lint_report(
    program: Program, sources: tuple[SourceFile, ...], linted: Linted, accepting: Accepting = NOBODY
) -> Report:
    """`sources` are the files read, the main file first; `accepting`: what somebody takes responsibility for."""
    files = texts(sources)
    counts = unaccepted(linted, accepting)
    tally = words.Tally(counts, len(linted.findings) - counts.total(), len(accepting.vain))
    bad = counts or accepting.vain
    return Report(
        opening=words.opening(program.label, tally, not linted.whole),
        closing=words.closing(tally, linted.undecided, linted.whole, linted.interrupted),
        outcome=Outcome.FAILS if bad else Outcome.GOOD if linted.whole else Outcome.OPEN,
        notices=(*in_vain(accepting, files), *found(program, linted, accepting, files, ALL)),
        notes=(*notes(linted, "--budget"), *accepted_notes(accepting)),
        basis=basis(program, sources),
        files=files_read(sources),
    )
