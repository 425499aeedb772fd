"""Asks `logiccheck` about a file that may be anything, and says what it should not have done."""

from __future__ import annotations

import re
import signal
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

from logiccheck.lang.reading import Unreadable
from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render
from logiccheck.report.played import Shape
from logiccheck.report.report import Excerpt, Level, Notice, Outcome, Report, Shown
from logiccheck.session import checking, playing, reading

SENTENCE = 400  # characters of a sentence or an advice
EXCERPT = 160  # characters of a line that is shown
LINES = 8  # of one excerpt
INSIDE = re.compile(
    r"Traceback|\bNone\b|<class|<object|\bobject at 0x|\bToken\(|\$END|\bLPAR\b|\bRPAR\b|\bNAME\b\W*token|lark|sympy|pysat|"
    r"\b(?:solver|clause|lemma|cube|cone|fixpoint|automaton|lexer|parser|token|AST|literal|boolean|unroll\w*|SAT|PDR)\b"
)
QUOTED = re.compile(r"`[^`]*`|\"[^\"]*\"")
FILE = "van.circuit"
LOOKS = (Look(None, False, False), Look(40, False, False), Look(1, False, True), Look(None, False, True))


class Hang(Exception):
    """It took longer than it may."""


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """Inside, so many seconds of the processor may be used; after that `Hang` is raised wherever it is."""

    def handle(number: int, frame: FrameType | None) -> None:
        raise Hang

    before = signal.signal(signal.SIGPROF, handle)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def complaints(raw: bytes, budget: float, seconds: float, whole: bool = True) -> tuple[Outcome | None, list[str]]:
    """What came of the file, and all that should not have been; `whole`: a file without mistakes is also checked."""

    def reader(path: str) -> bytes | Unreadable:
        return raw if path == FILE else Unreadable.MISSING

    try:
        with at_most(seconds):
            shown = reading.show(FILE, reader, None)
            reports = [shown]
            if whole and shown.outcome is not Outcome.MISTAKE:
                checked = checking.check(FILE, reader, budget, (), None, edits=budget)
                played = [playing.play(FILE, reader, None, None, Shape(bars, True)).report for bars in (True, False)]
                reports += [checked.report, *played]
                for story in checked.stories:
                    story.text("stories/x.circuit").encode("utf-8")
            found = [each for report in reports for each in _report(report)]
            found += [f"{bug.met_at}: {bug.what} at {bug.places}" for bug in checked.bugs] if len(reports) > 1 else []
    except Hang:
        return None, [f"more than {seconds:g} seconds"]
    except Exception:
        return None, [traceback.format_exc()]
    return reports[min(1, len(reports) - 1)].outcome, found


def _report(report: Report) -> Iterator[str]:
    """What is wrong with a report."""
    for look in LOOKS:
        text = render(report, look)
        if look.ascii is False:
            text.encode("utf-8", "replace")
    if report.outcome is Outcome.MISTAKE:
        if not any(notice.level is Level.MISTAKE for notice in report.notices):
            yield "no mistake in a report of mistakes"
        for notice in report.notices:
            yield from (f"{notice.name}: {each}" for each in _notice(notice))
    for text in _said(report):
        inside = INSIDE.search(QUOTED.sub("`x`", text))
        if inside is not None:
            yield f"{inside[0]!r} in: {text}"
    if report.opening.startswith(":"):
        yield f"nobody is spoken of: {report.opening}"
    for sentence in (report.opening, report.closing):
        if len(sentence) > SENTENCE:
            yield f"{len(sentence)} characters: {sentence[:80]}"


def _said(report: Report) -> Iterator[str]:
    """The sentences of a report, without tables and what the user wrote alone."""
    yield from (report.opening, report.closing, *report.notes)
    for part in report.verdicts:
        yield from (part.sentence, *part.remarks, *(_of_story(part.shown) if part.shown else ()))
    for trouble in report.troubles:
        yield from (trouble.title, *trouble.sentences, *(_of_story(trouble.shown) if trouble.shown else ()))
    for played in report.played:
        yield from (played.sentence, *played.remarks, *(each.sentence for each in played.expectations))
        yield from (breach.sentence for breach in played.breaches)
    for notice in report.notices:
        yield from (notice.sentence, notice.advice)


def _of_story(shown: Shown) -> Iterator[str]:
    yield from (*shown.remarks, *(cause.sentence for cause in shown.causes))


def _notice(notice: Notice) -> Iterator[str]:
    for text in (notice.sentence, notice.advice, notice.second):
        if len(text) > SENTENCE:
            yield f"{len(text)} characters: {text[:80]}"
        inside = INSIDE.search(QUOTED.sub("`x`", text))
        if inside is not None:
            yield f"{inside[0]!r} in: {text}"
        if "``" in text or "  " in QUOTED.sub("`x`", text) or text != text.strip():
            yield f"a gap in: {text!r}"
    if not notice.sentence.endswith((".", "?")) or not notice.advice:
        yield f"no sentence, or no advice: {notice}"
    for excerpt in notice.excerpts:
        yield from _excerpt(excerpt)
    if not notice.excerpts and notice.name not in ("not-utf-8", "big-file"):
        yield "no place"


def _excerpt(excerpt: Excerpt) -> Iterator[str]:
    if not re.fullmatch(
        rf"{re.escape(FILE)}:\d+:\d+|starting\.circuit:\d+:\d+|.*\bstarting\b.*:\d+:\d+", excerpt.place
    ):
        yield f"place {excerpt.place}"
    if not 1 <= len(excerpt.lines) <= LINES:
        yield f"{len(excerpt.lines)} lines at {excerpt.place}"
    for line in excerpt.lines:
        if len(line.text) > EXCERPT:
            yield f"a line of {len(line.text)} characters at {excerpt.place}"
        if any(not 0 <= begin < end <= max(len(line.text), begin + 1) for begin, end in line.marks):
            yield f"marks {line.marks} at {excerpt.place}: {line.text!r}"
