"""A report as lines for a terminal, a pipe or a file: wrapped and coloured only where somebody looks at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import IO

from logiccheck.base.widths import columns_of, padded
from logiccheck.engine.verdict import Kind
from logiccheck.render.drawn.bars import DRAWN as DRAWN_BARS
from logiccheck.render.drawn.bars import draw
from logiccheck.render.drawn.lines import (
    BAD,
    BAR,
    FAINT,
    GAP,
    GOOD,
    OPEN,
    RULE,
    STRONG,
    Look,
    Printed,
    draw_excerpt,
    draw_table,
    wrapped,
)
from logiccheck.render.told.currents import draw_currents
from logiccheck.render.told.cut_sets import draw_cut_sets
from logiccheck.render.told.faults import draw_cautions, draw_faults
from logiccheck.report.plain import printable
from logiccheck.report.report import (
    AcceptedPart,
    Basis,
    Cause,
    EditsPart,
    Level,
    LinesPart,
    Notice,
    Outcome,
    PlayedPart,
    RecheckedPart,
    Report,
    RulePart,
    Shown,
    ToAccept,
    TroublePart,
    VerdictPart,
    WaivedPart,
    WhyPart,
)
from logiccheck.report.words_accepted import ACCEPTED
from logiccheck.report.words_check import NOT_COVERED, TAKEN_AS_GIVEN
from logiccheck.report.words_lint import EXAMPLE
from logiccheck.report.words_waived import TITLE as WAIVED

DRAWN = BAR + RULE + DRAWN_BARS  # what a stream must be able to take, else plain ASCII is drawn


def render(report: Report, look: Look) -> str:
    """The whole report as text without colours, each line ended, nothing cut at its end."""
    return "".join(line + "\n" for line in (_flat(printed) for printed in _report(report, look)))


def show(report: Report, look: Look, stream: IO[str]) -> None:
    """Write the report to `stream`, through rich where colours are wanted."""
    if not look.colour:
        stream.write(render(report, look))
        return
    from rich.console import Console
    from rich.text import Text

    console = Console(file=stream, force_terminal=True, width=look.width, highlight=False, markup=False, emoji=False)
    for printed in _report(report, look):
        console.print(Text.assemble(*((printable(text), style) for text, style in printed)), soft_wrap=True)


def _flat(printed: Printed) -> str:
    return printable("".join(text for text, _ in printed).rstrip())


def _first(report: Report) -> str:
    return GOOD if report.outcome is Outcome.GOOD else BAD


def _report(report: Report, look: Look) -> Iterator[Printed]:
    if report.opening:
        yield from wrapped(report.opening, look, style=_first(report))
    for text in report.texts:
        yield from (((line, ""),) for line in text.text.rstrip().split("\n"))
    mistakes = [notice for notice in report.notices if notice.level is Level.MISTAKE]
    for notice in mistakes:
        yield from _notice(notice, look)
    for trouble in report.troubles:
        yield from _trouble(trouble, look)
    for part in report.verdicts:
        if part.kind not in (Kind.PROVED, Kind.BLOCKED):
            yield from _verdict(part, look)
    for played in report.played:
        yield from _played(played, look)
    for rule in report.rules:
        yield from _rule(rule, look)
    if report.currents is not None:
        yield from draw_currents(report.currents, look)
    yield from _told(report, look)
    if report.faults is not None:
        yield from draw_faults(report.faults, look)
    if report.cut_sets is not None:
        yield from draw_cut_sets(report.cut_sets, look)
    if report.why is not None:
        yield from _why(report.why, look)
    for rechecked in report.rechecked:
        yield from _rechecked(rechecked, look)
    for notice in report.notices:
        if notice not in mistakes:
            yield from _notice(notice, look)
    yield from _last(report, look)


def _last(report: Report, look: Look) -> Iterator[Printed]:
    """What nobody has to mend: what was shown to be possible, notes, all requirements, what everything rests on."""
    for part in report.verdicts:
        if part.kind is Kind.PROVED and part.shown is not None:
            yield from _verdict(part, look)
    if report.notes and report.opening:
        yield ()
    for note in report.notes:
        yield from wrapped(note, look)
    if report.verdicts:
        yield from _to_accept(report.verdicts, look)
        yield from _summary(report.verdicts, look)
    if report.waived:
        yield from _waived(report.waived, look)
    if report.basis is not None:
        yield from _basis(report.basis, look)
    for told in (report.faults, report.cut_sets, report.currents):
        if told is not None:
            yield from draw_cautions(told.cautions, look)
    if report.closing:
        yield ()
        yield from wrapped(report.closing, look, style=_first(report))


# --------------------------------------------------------------------------------------------------------- the parts


def _notice(notice: Notice, look: Look) -> Iterator[Printed]:
    style = BAD if notice.level is Level.MISTAKE else STRONG
    excused = notice.accepted is not None and notice.accepted.excuses
    yield ()
    yield from wrapped(f"{ACCEPTED if excused else notice.level.value}: {notice.sentence}", look, style=style)
    for at, excerpt in enumerate(notice.excerpts):
        if at == 1 and notice.second:
            yield from wrapped(f"{notice.second}:", look, indent=GAP)
        yield from draw_excerpt(excerpt, look)
    if not excused:
        for sentence in (notice.guards, notice.advice):
            if sentence:
                yield from wrapped(sentence, look, indent=GAP)
        if notice.shown is not None:
            yield ()
            yield from wrapped(f"{EXAMPLE}:", look, indent=GAP)
            yield from _shown(notice.shown, look)
    yield from _accepted(notice.accepted, notice.to_accept, look)
    yield ((f"{GAP}more: logiccheck about {notice.name}", FAINT),)


def _accepted(accepted: AcceptedPart | None, to_accept: ToAccept | None, look: Look) -> Iterator[Printed]:
    """Whose word it is, and the line that would accept it, which is never wrapped."""
    if accepted is not None:
        place = f"{GAP}[{accepted.place}]" if accepted.place else ""
        yield from wrapped(accepted.sentence + place, look, indent=GAP, style=STRONG)
    if to_accept is not None:
        yield ((f"{GAP}{to_accept.lead} {to_accept.line}", FAINT),)


def _trouble(trouble: TroublePart, look: Look) -> Iterator[Printed]:
    yield ()
    yield from wrapped(trouble.title, look, style=BAD)
    for sentence in trouble.sentences:
        yield from wrapped(sentence, look, indent=GAP)
    for given in trouble.givens:
        yield from wrapped(given, look, indent=GAP * 3, first=GAP * 2 + "given: ")
    if trouble.shown is not None:
        yield from _shown(trouble.shown, look)
    if trouble.edits is not None:
        yield from _edits(trouble.edits, look)


KINDS = {
    Kind.PROVED: ("proved", GOOD),
    Kind.FAILS: ("FAILS", BAD),
    Kind.NOT_DECIDED: ("NOT DECIDED", OPEN),
    Kind.NO_CASE: ("NO CASE", OPEN),
    Kind.BLOCKED: ("BLOCKED", OPEN),
}


def _word(part: VerdictPart) -> tuple[str, str]:
    """What became of a requirement, and whether somebody's word excuses it."""
    word, style = KINDS[part.kind]
    return (f"{word}, {ACCEPTED}", OPEN) if part.accepted is not None and part.accepted.excuses else (word, style)


def _verdict(part: VerdictPart, look: Look) -> Iterator[Printed]:
    word, style = _word(part)
    yield ()
    yield ((word, style), (GAP + _labelled(part.name, part.label), STRONG))
    if part.kind is not Kind.NOT_DECIDED:
        yield from wrapped(part.text, look, indent=GAP)
        place = f"{GAP}[{part.place}]" if part.place else ""
        yield from wrapped(part.guards + place, look, indent=GAP)
        yield ()
    yield from wrapped(part.sentence, look, indent=GAP, style=STRONG)
    if part.causes:
        yield ()
    for cause in part.causes:
        yield from _cause(cause, look)
    if part.causes and part.remarks:
        yield ()
    if part.shown is not None:
        yield from _shown(part.shown, look)
    for remark in part.remarks:
        yield from wrapped(remark, look, indent=GAP)
    if part.edits is not None:
        yield from _edits(part.edits, look)
    if part.accepted is not None:
        yield ()
        yield from _accepted(part.accepted, None, look)


def _edits(part: EditsPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield from wrapped(part.sentence, look, indent=GAP)
    for edit in part.edits:
        for excerpt in edit:
            yield from draw_excerpt(excerpt, look)


def _rechecked(part: RecheckedPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield ((part.word, BAD), (GAP + _labelled(part.name, part.label), STRONG))
    for sentence in part.sentences:
        yield from wrapped(sentence, look, indent=GAP)


def _labelled(name: str, label: str) -> str:
    """The name, and the label where somebody gave one."""
    return name if label in ("", name) else f'{name} "{label}"'


def _shown(shown: Shown, look: Look) -> Iterator[Printed]:
    yield ()
    for cause in shown.causes:
        yield from _cause(cause, look)
    if shown.causes:
        yield ()
    yield from draw_table(shown.table, look)
    if shown.remarks:
        yield ()
    for remark in shown.remarks:
        yield from wrapped(remark, look, indent=GAP)


def _cause(cause: Cause, look: Look) -> Iterator[Printed]:
    yield from wrapped(cause.sentence, look, indent=GAP)
    if cause.excerpt is not None:
        yield from draw_excerpt(cause.excerpt, look)


def _played(played: PlayedPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield ((f"scenario {_labelled(played.name, played.label)}", STRONG),)
    yield from wrapped(played.sentence, look, indent=GAP)
    if played.bars is not None:
        yield ()
        yield from draw(played.bars, look.width, look.ascii)
    elif played.table is not None:
        yield ()
        yield from draw_table(played.table, look)
    if played.table is not None and (played.breaches or played.expectations or played.remarks):
        yield ()
    for breach in played.breaches:
        yield from wrapped(breach.title, look, indent=GAP * 2, first=GAP, style=BAD if breach.counts else STRONG)
        yield from wrapped(breach.sentence, look, indent=GAP * 2)
    for part in played.expectations:
        yield from wrapped(part.sentence, look, indent=GAP, style="" if part.met else BAD)
        if part.excerpt is not None:
            yield from draw_excerpt(part.excerpt, look)
        for cause in part.causes:
            yield from _cause(cause, look)
    for remark in played.remarks:
        yield from wrapped(remark, look, indent=GAP)


def _rule(rule: RulePart, look: Look) -> Iterator[Printed]:
    place = f"{GAP}[{rule.place}]" if rule.place else ""
    yield ()
    yield ((_labelled(rule.name, rule.label), STRONG), (place, FAINT))
    yield from _pairs(rule.ways, look)
    if rule.terms_are:
        yield ((f"{GAP}{rule.terms_are}", ""),)
    for term in rule.terms:
        yield from wrapped(term, look, indent=GAP * 3, first=f"{GAP * 2}- ")


def _pairs(pairs: Sequence[tuple[str, str]], look: Look) -> Iterator[Printed]:
    """A word and what it stands for, one a line, in two columns."""
    width = max(len(word) for word, _ in pairs)
    for word, text in pairs:
        lead = f"{GAP}{word.ljust(width)}{GAP}"
        yield from wrapped(text, look, indent=" " * len(lead), first=lead)


def _told(report: Report, look: Look) -> Iterator[Printed]:
    if report.cases:
        yield from ((), (("When each proved requirement decides something", STRONG),))
    for lines in (*report.cases, *report.tour):
        yield from _lines(lines, look)


def _lines(part: LinesPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield ((_labelled(part.name, part.label), STRONG),)
    yield from _pairs(part.lines, look)
    for word, story in part.shown:
        yield ()
        yield ((f"{GAP}{word}", STRONG),)
        yield from _shown(story, look)


def _why(why: WhyPart, look: Look) -> Iterator[Printed]:
    for sentence in why.answer:
        yield from wrapped(sentence, look)
    for excerpt in why.excerpts:
        yield from draw_excerpt(excerpt, look)
    for section in why.sections:
        yield ()
        yield ((section.title, STRONG),)
        for sentence in section.sentences:
            yield from wrapped(sentence, look, indent=GAP)
        for step in section.steps:
            place = f"{GAP}[{step.place}]" if step.place else ""
            lead = GAP * (step.depth + 1)
            yield from wrapped(step.sentence + place, look, indent=lead + GAP, first=lead + "- ")
        for cause in section.causes:
            yield from _cause(cause, look)
        if section.table is not None:
            yield from draw_table(section.table, look)
    if why.counted:
        yield ()
        yield from wrapped(why.counted, look, style=FAINT)


def _to_accept(parts: tuple[VerdictPart, ...], look: Look) -> Iterator[Printed]:
    """Far from what fails: it is not what to do about it."""
    left = [part.to_accept for part in parts if part.to_accept is not None]
    if left:
        yield ()
    for each in left:
        yield from _accepted(None, each, look)


def _summary(parts: tuple[VerdictPart, ...], look: Look) -> Iterator[Printed]:
    """One line a requirement, in the order written."""
    yield ()
    yield (("All requirements", STRONG),)
    words = max(len(_word(part)[0]) for part in parts)
    names = max(columns_of(part.name) for part in parts)
    for part in parts:
        word, style = _word(part)
        lead = f"{GAP}{word.ljust(words)}{GAP}{padded(part.name, names)}{GAP}"
        for at, printed in enumerate(wrapped(part.text, look, indent=" " * len(lead))):
            text = printed[0][0][len(lead) :]
            yield ((f"{GAP}{word.ljust(words)}", style), (lead[2 + words :] + text, "")) if at == 0 else printed


def _waived(parts: tuple[WaivedPart, ...], look: Look) -> Iterator[Printed]:
    yield ()
    yield ((WAIVED, STRONG),)
    for part in parts:
        yield from wrapped(f"{part.name}{GAP}{part.text}", look, indent=GAP * 2, first=GAP)
        place = f"{GAP}[{part.place}]" if part.place else ""
        yield from wrapped(part.sentence + place, look, indent=GAP * 2)


def _basis(basis: Basis, look: Look) -> Iterator[Printed]:
    for title, lines in ((TAKEN_AS_GIVEN, basis.assumptions), (NOT_COVERED, basis.limits)):
        if lines:
            yield ()
            yield ((title, STRONG),)
        for line in lines:
            yield from wrapped(line, look, indent=GAP * 2, first=GAP + "- ")
    yield ()
    yield from wrapped(basis.caution, look, style=STRONG)
    for line in basis.colophon:
        yield from wrapped(line, look, style=FAINT)
