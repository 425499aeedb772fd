"""A report as lines for a terminal, a pipe or a file: wrapped and coloured only where somebody looks at a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, TypeAlias

from logiccheck.base.widths import columns_of, padded
from logiccheck.engine.verdict import Kind
from logiccheck.render.drawn.bars import DRAWN as DRAWN_BARS
from logiccheck.render.drawn.bars import draw
from logiccheck.render.drawn.table import RULE
from logiccheck.render.drawn.table import draw as draw_table
from logiccheck.report.plain import printable
from logiccheck.report.report import (
    Basis,
    Cause,
    EditsPart,
    Excerpt,
    Level,
    Notice,
    PlayedPart,
    RecheckedPart,
    Report,
    RulePart,
    Shown,
    TroublePart,
    VerdictPart,
    WaivedPart,
    WhyPart,
)
from logiccheck.report.words_lint import EXAMPLE
from logiccheck.report.words_waived import TITLE as WAIVED

Piece: TypeAlias = tuple[str, str]  # a text and the style it is shown in, "" for plain
Printed: TypeAlias = tuple[Piece, ...]  # one line

BAD, GOOD, OPEN, STRONG, FAINT = "bold red", "bold blue", "bold", "bold", "dim"
GAP = "  "
BAR = "\u2502"
DRAWN = BAR + RULE + DRAWN_BARS  # what a stream must be able to take, else plain ASCII is drawn


@dataclass(frozen=True, slots=True)
class Look:
    """How the stream wants it: `width` None never wraps or splits; `ascii` where it can take no other characters."""

    width: int | None
    colour: bool
    ascii: bool


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


def _report(report: Report, look: Look) -> Iterator[Printed]:
    opening = {True: GOOD, False: BAD}[report.outcome.value == "good"]
    if report.opening:
        yield from _wrapped(report.opening, look, style=opening)
    for text in report.texts:
        yield from (((line, ""),) for line in text.text.rstrip().split("\n"))
    mistakes = [notice for notice in report.notices if notice.level is Level.MISTAKE]
    for notice in mistakes:
        yield from _notice(notice, look)
    for trouble in report.troubles:
        yield from _trouble(trouble, look)
    for part in report.verdicts:
        if part.kind not in (Kind.PROVED, Kind.BLOCKED) or part.shown is not None:
            yield from _verdict(part, look)
    for played in report.played:
        yield from _played(played, look)
    for rule in report.rules:
        yield from _rule(rule, look)
    if report.why is not None:
        yield from _why(report.why, look)
    for rechecked in report.rechecked:
        yield from _rechecked(rechecked, look)
    for notice in report.notices:
        if notice not in mistakes:
            yield from _notice(notice, look)
    if report.notes and report.opening:
        yield ()
    for note in report.notes:
        yield from _wrapped(note, look)
    if report.verdicts:
        yield from _summary(report.verdicts, look)
    if report.waived:
        yield from _waived(report.waived, look)
    if report.basis is not None:
        yield from _basis(report.basis, look)
    if report.closing:
        yield ()
        yield from _wrapped(report.closing, look, style=opening)


def _wrapped(text: str, look: Look, indent: str = "", style: str = "", first: str | None = None) -> Iterator[Printed]:
    """`text` after `indent`, its first line after `first`; broken only at blanks, and only where there is a width."""
    first = indent if first is None else first
    if look.width is None:
        yield ((first + text, style),)
        return
    room = max(look.width, len(indent) + 20)
    for line in textwrap.wrap(
        text, room, initial_indent=first, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    ):
        yield ((line, style),)


# --------------------------------------------------------------------------------------------------------- the parts


def _notice(notice: Notice, look: Look) -> Iterator[Printed]:
    style = BAD if notice.level is Level.MISTAKE else STRONG
    yield ()
    yield from _wrapped(f"{notice.level.value}: {notice.sentence}", look, style=style)
    for at, excerpt in enumerate(notice.excerpts):
        if at == 1 and notice.second:
            yield from _wrapped(f"{notice.second}:", look, indent=GAP)
        yield from _excerpt(excerpt, look)
    for sentence in (notice.guards, notice.advice):
        if sentence:
            yield from _wrapped(sentence, look, indent=GAP)
    if notice.shown is not None:
        yield ()
        yield from _wrapped(f"{EXAMPLE}:", look, indent=GAP)
        yield from _shown(notice.shown, look)
    yield ((f"{GAP}more: logiccheck about {notice.name}", FAINT),)


def _trouble(trouble: TroublePart, look: Look) -> Iterator[Printed]:
    yield ()
    yield from _wrapped(trouble.title, look, style=BAD)
    for sentence in trouble.sentences:
        yield from _wrapped(sentence, look, indent=GAP)
    for given in trouble.givens:
        yield from _wrapped(given, look, indent=GAP * 3, first=GAP * 2 + "given: ")
    if trouble.shown is not None:
        yield from _shown(trouble.shown, look)


KINDS = {
    Kind.PROVED: ("proved", GOOD),
    Kind.FAILS: ("FAILS", BAD),
    Kind.NOT_DECIDED: ("NOT DECIDED", OPEN),
    Kind.NO_CASE: ("NO CASE", OPEN),
    Kind.BLOCKED: ("BLOCKED", OPEN),
}


def _verdict(part: VerdictPart, look: Look) -> Iterator[Printed]:
    word, style = KINDS[part.kind]
    yield ()
    yield ((word, style), (GAP + _labelled(part.name, part.label), STRONG))
    if part.kind is not Kind.NOT_DECIDED:
        yield from _wrapped(part.text, look, indent=GAP)
        place = f"{GAP}[{part.place}]" if part.place else ""
        yield from _wrapped(part.guards + place, look, indent=GAP)
        yield ()
    yield from _wrapped(part.sentence, look, indent=GAP, style=STRONG)
    if part.causes:
        yield ()
    for cause in part.causes:
        yield from _cause(cause, look)
    if part.causes and part.remarks:
        yield ()
    if part.shown is not None:
        yield from _shown(part.shown, look)
    for remark in part.remarks:
        yield from _wrapped(remark, look, indent=GAP)
    if part.edits is not None:
        yield from _edits(part.edits, look)


def _edits(part: EditsPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield from _wrapped(part.sentence, look, indent=GAP)
    for edit in part.edits:
        for excerpt in edit:
            yield from _excerpt(excerpt, look)


def _rechecked(part: RecheckedPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield ((part.word, BAD), (GAP + _labelled(part.name, part.label), STRONG))
    for sentence in part.sentences:
        yield from _wrapped(sentence, look, indent=GAP)


def _labelled(name: str, label: str) -> str:
    """The name, and the label where somebody gave one."""
    return name if label in ("", name) else f'{name} "{label}"'


def _shown(shown: Shown, look: Look) -> Iterator[Printed]:
    yield ()
    for cause in shown.causes:
        yield from _cause(cause, look)
    if shown.causes:
        yield ()
    yield from draw_table(shown.table, look.width, look.ascii)
    if shown.remarks:
        yield ()
    for remark in shown.remarks:
        yield from _wrapped(remark, look, indent=GAP)


def _cause(cause: Cause, look: Look) -> Iterator[Printed]:
    yield from _wrapped(cause.sentence, look, indent=GAP)
    if cause.excerpt is not None:
        yield from _excerpt(cause.excerpt, look)


def _played(played: PlayedPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield ((f"scenario {_labelled(played.name, played.label)}", STRONG),)
    yield from _wrapped(played.sentence, look, indent=GAP)
    if played.bars is not None:
        yield ()
        yield from draw(played.bars, look.width, look.ascii)
    elif played.table is not None:
        yield ()
        yield from draw_table(played.table, look.width, look.ascii)
    if played.table is not None and (played.breaches or played.expectations or played.remarks):
        yield ()
    for breach in played.breaches:
        yield from _wrapped(breach.title, look, indent=GAP * 2, first=GAP, style=BAD if breach.counts else STRONG)
        yield from _wrapped(breach.sentence, look, indent=GAP * 2)
    for part in played.expectations:
        yield from _wrapped(part.sentence, look, indent=GAP, style="" if part.met else BAD)
        if part.excerpt is not None:
            yield from _excerpt(part.excerpt, look)
        for cause in part.causes:
            yield from _cause(cause, look)
    for remark in played.remarks:
        yield from _wrapped(remark, look, indent=GAP)


def _rule(rule: RulePart, look: Look) -> Iterator[Printed]:
    place = f"{GAP}[{rule.place}]" if rule.place else ""
    yield ()
    yield ((_labelled(rule.name, rule.label), STRONG), (place, FAINT))
    width = max(len(way) for way, _ in rule.ways)
    for way, text in rule.ways:
        lead = f"{GAP}{way.ljust(width)}{GAP}"
        yield from _wrapped(text, look, indent=" " * len(lead), first=lead)
    if rule.terms_are:
        yield ((f"{GAP}{rule.terms_are}", ""),)
    for term in rule.terms:
        yield from _wrapped(term, look, indent=GAP * 3, first=f"{GAP * 2}- ")


def _why(why: WhyPart, look: Look) -> Iterator[Printed]:
    for sentence in why.answer:
        yield from _wrapped(sentence, look)
    for excerpt in why.excerpts:
        yield from _excerpt(excerpt, look)
    for section in why.sections:
        yield ()
        yield ((section.title, STRONG),)
        for sentence in section.sentences:
            yield from _wrapped(sentence, look, indent=GAP)
        for step in section.steps:
            place = f"{GAP}[{step.place}]" if step.place else ""
            lead = GAP * (step.depth + 1)
            yield from _wrapped(step.sentence + place, look, indent=lead + GAP, first=lead + "- ")
        for cause in section.causes:
            yield from _cause(cause, look)
        if section.table is not None:
            yield from draw_table(section.table, look.width, look.ascii)
    if why.counted:
        yield ()
        yield from _wrapped(why.counted, look, style=FAINT)


def _summary(parts: tuple[VerdictPart, ...], look: Look) -> Iterator[Printed]:
    """One line a requirement, in the order written."""
    yield ()
    yield (("All requirements", STRONG),)
    words = max(len(KINDS[part.kind][0]) for part in parts)
    names = max(columns_of(part.name) for part in parts)
    for part in parts:
        word, style = KINDS[part.kind]
        lead = f"{GAP}{word.ljust(words)}{GAP}{padded(part.name, names)}{GAP}"
        for at, printed in enumerate(_wrapped(part.text, look, indent=" " * len(lead))):
            text = printed[0][0][len(lead) :]
            yield ((f"{GAP}{word.ljust(words)}", style), (lead[2 + words :] + text, "")) if at == 0 else printed


def _waived(parts: tuple[WaivedPart, ...], look: Look) -> Iterator[Printed]:
    yield ()
    yield ((WAIVED, STRONG),)
    for part in parts:
        yield from _wrapped(f"{part.name}{GAP}{part.text}", look, indent=GAP * 2, first=GAP)
        place = f"{GAP}[{part.place}]" if part.place else ""
        yield from _wrapped(part.sentence + place, look, indent=GAP * 2)


def _basis(basis: Basis, look: Look) -> Iterator[Printed]:
    for title, lines in (("What was taken as given", basis.assumptions), ("What a proof does not cover", basis.limits)):
        if lines:
            yield ()
            yield ((title, STRONG),)
        for line in lines:
            yield from _wrapped(line, look, indent=GAP * 2, first=GAP + "- ")
    yield ()
    yield from _wrapped(basis.caution, look, style=STRONG)
    for line in basis.colophon:
        yield from _wrapped(line, look, style=FAINT)


# ---------------------------------------------------------------------------------------------- the user's own lines


def _excerpt(excerpt: Excerpt, look: Look) -> Iterator[Printed]:
    """The lines as written, with a row of carets under what they point at; never wrapped."""
    bar = "|" if look.ascii else BAR
    digits = len(str(excerpt.lines[-1].number)) if excerpt.lines else 0
    yield ((f"{GAP * 2}{excerpt.place}", FAINT),)
    for line in excerpt.lines:
        text = line.text.expandtabs(1)
        yield ((f"{GAP * 2}{str(line.number).rjust(digits)} {bar} ", FAINT), (text, ""))
        if line.marks:
            yield ((f"{GAP * 2}{' ' * digits} {bar} ", FAINT), (_carets(text, line.marks), BAD))


def _carets(text: str, marks: tuple[tuple[int, int], ...]) -> str:
    """Carets under the marks, each as wide as what it stands under; a mark may lie behind the end of the text."""
    under = ""
    for at in range(max(end for _, end in marks)):
        marked = any(begin <= at < end for begin, end in marks)
        under += ("^" if marked else " ") * (columns_of(text[at]) if at < len(text) else 1)
    return under
