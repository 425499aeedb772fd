"""The report of what is wrong with a harness as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.explain.accepting import Accepting
from logiccheck.explain.asking import Answer, Blocked, Open, Seen
from logiccheck.lang.program import Guard, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_through as words
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read
from logiccheck.report.linted import found as noticed
from logiccheck.report.report import Outcome, Report, WhyPart, WhySection
from logiccheck.report.through import Teller, sneaks_told
from logiccheck.report.words_ways import why_open
from logiccheck.study.findings import Linted
from logiccheck.study.harness import Whole

COUNTED = frozenset({Guard.DANGER, Guard.DAMAGE})


def harness_report(
    program: Program, sources: tuple[SourceFile, ...], found: Whole, linted: Linted, accepting: Accepting
) -> Report:
    """`linted`: the findings about copper that were looked for beside it; `accepting`: who accepts one of them."""
    teller = Teller(program, sources, found)
    wrong = [
        *sneaks_told(teller, found, meant=False),
        *_read_back(teller, found, counting=True),
        *_shorts(teller, found),
    ]
    notices = noticed(program, linted, accepting, teller.files, COUNTED)
    noted = list(sneaks_told(teller, found, meant=True))
    count = len(wrong) + sum(notice.counts for notice in notices)
    open_ = _open(found)
    unsettled = found.questions.unsettled
    whole = not (open_ or found.too_many or found.interrupted or unsettled or not linted.whole)
    comes_to = outcome([answer for _, answer in open_], found.interrupted, unsettled)
    notes = [words.MEANT, *([words.looked(found.looked)] if whole and not count and not noted else ())]
    notes += [words.not_decided(about, why_open(answer)) for about, answer in open_]
    notes += [words.too_many(found.too_many)] if found.too_many else []
    notes += hindered(sources[0].path, [answer for _, answer in open_], found.interrupted, unsettled)
    if program.wires:
        notes.append(words.how_to_see(sources[0].path, program.wires[0].name))
    return Report(
        words.whole_opening(program.label, count, whole),
        words.closing(count, whole),
        Outcome.FAILS if count else Outcome.OPEN if comes_to is Outcome.GOOD and not whole else comes_to,
        notices=notices,
        why=WhyPart((), sections=(*wrong, *noted, *_read_back(teller, found, counting=False))),
        notes=tuple(notes),
        basis=basis(program, sources),
        files=files_read(sources),
    )


def _open(found: Whole) -> list[tuple[str, Open | Blocked]]:
    """What was asked about and has no answer."""
    asked: list[tuple[str, Answer]] = [(each.suspect.wire, each.answer) for each in found.sneaks]
    asked += [(each.sense, each.answer) for each in found.read_back]
    asked += found.shorts
    return [(about, answer) for about, answer in asked if isinstance(answer, Open | Blocked)]


def _read_back(teller: Teller, found: Whole, counting: bool) -> Iterator[WhySection]:
    """Those that count as wrong, or those that are only worth knowing."""
    for each in found.read_back:
        if each.otherwise is counting and isinstance(each.answer, Seen) and each.way is not None:
            sentences = [words.reached(teller.way(each.way)), teller.story(each.answer)]
            sentences += [words.READS_COPPER if each.otherwise else words.READS_ONLY]
            sentences += [words.holds(each.way.origin.name, each.sense)] if each.holds else []
            title = words.reads_itself(each.sense, each.wire, each.outputs)
            yield WhySection(title, tuple(sentences), causes=teller.here(each.way))


def _shorts(teller: Teller, found: Whole) -> Iterator[WhySection]:
    for wire, answer in found.shorts:
        if isinstance(answer, Seen):
            yield WhySection(words.short(wire), (teller.story(answer),))
