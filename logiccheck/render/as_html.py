"""Single faults as one HTML file that needs nothing else: for a phone, a screen and paper, with scripts off.

Colour carries no meaning: a word, a sign and the border do. Blue (#0072B2) and black are the only colours of text; on
white they have a contrast of 5.2 and 21 to 1, computed as WCAG 2.2 says. Each table has heads for rows and columns; on
a narrow screen its rows become blocks, each cell after the name of its column, and roles keep it a table for those who
hear it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.report import words_faults as words
from logiccheck.report.faults_part import EffectPart, EndangeredPart, HitPart, Severity
from logiccheck.report.plain import printable
from logiccheck.report.report import Report, Table, WhySection
from logiccheck.report.words_check import NOT_COVERED, TAKEN_AS_GIVEN

SIGNS = {
    Severity.DANGER: "\u25b2",
    Severity.SHORT: "\u25c6",
    Severity.DAMAGE: "\u25a0",
    Severity.FUNCTION: "\u25cb",
    Severity.OPEN: "?",
    Severity.NONE: "\u2013",
}
STYLE = """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 80rem; background: #fff; color: #000;
       font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.4rem; line-height: 1.25; margin: 0 0 .8rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 .6rem; border-bottom: 2px solid #000; }
h3 { font-size: 1.05rem; margin: 0 0 .3rem; }
p { margin: .3rem 0; }
a { color: #0072b2; }
nav ul { list-style: none; margin: 0; padding: 0; }
nav a { display: inline-block; min-height: 44px; padding: 10px 1rem 10px 0; }
.cautions { border: 2px solid #000; padding: .6rem 1rem; }
.cautions ul { margin: .3rem 0; padding-left: 1.2rem; }
article { margin: 1rem 0; padding: .6rem .8rem; border: 1px solid #000; }
.danger { border-left: 10px solid #000; }
.damage, .short-circuit { border-left: 10px double #000; }
.function { border-left: 6px dotted #000; }
.not-decided { border-left: 6px dashed #000; }
.mark { display: inline-block; padding: 0 .4rem; border: 2px solid #0072b2; color: #0072b2; font-weight: bold;
        white-space: nowrap; }
.danger .head .mark, tr.danger .mark { border: 3px solid #000; color: #000; }
.hidden { font-weight: bold; }
.kind { font-weight: normal; }
table { border-collapse: collapse; width: 100%; margin: .6rem 0; }
caption { text-align: left; font-weight: bold; padding: .2rem 0; }
th, td { border: 1px solid #000; padding: .3rem .5rem; text-align: left; vertical-align: top; font-size: .92rem; }
thead th { border-bottom: 3px solid #000; }
.scroll { overflow-x: auto; }
code { font-family: ui-monospace, monospace; }
footer { margin-top: 2rem; font-size: .85rem; }
@media screen and (max-width: 50rem) {
  .rows thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .rows, .rows tbody, .rows tr, .rows th, .rows td { display: block; width: 100%; }
  .rows tr { margin: 0 0 .8rem; border: 1px solid #000; }
  .rows tr.danger { border-left: 10px solid #000; }
  .rows tr.damage, .rows tr.short-circuit { border-left: 10px double #000; }
  .rows th, .rows td { border: 0; border-bottom: 1px solid #000; }
  .rows tr > :last-child { border-bottom: 0; }
  .rows th, .rows td { overflow-wrap: anywhere; }
  .rows td::before { content: attr(data-head) ": "; font-weight: bold; }
}
@media print {
  @page { size: A4 landscape; margin: 12mm; }
  body { padding: 0; max-width: none; font: 9pt/1.25 system-ui, sans-serif; }
  th, td { padding: .1rem .3rem; font-size: 8pt; }
  article { margin: .5rem 0; padding: .3rem .5rem; }
  nav { display: none; }
  a { color: #000; }
  thead { display: table-header-group; }
  tr, .cautions, .head, .story { break-inside: avoid; }
  h2, h3, caption, .head { break-after: avoid; }
  .scroll { overflow: visible; }
}
"""


def render(report: Report) -> str:
    """The whole report as HTML, each line ended."""
    return "".join(line + "\n" for line in _page(report))


def _page(report: Report) -> Iterator[str]:
    title = _text(report.opening)
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield '<head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f'<meta name="generator" content="logiccheck {VERSION}, language {LANGUAGE}">'
    yield f"<title>{title}</title>"
    yield f"<style>\n{STYLE}</style></head>"
    yield "<body>"
    yield f"<header><h1>{title}</h1>"
    yield from _cautions(report)
    yield "</header>"
    yield "<main>"
    yield from _main(report)
    yield "</main>"
    yield from _footer(report)
    yield "</body></html>"


def _main(report: Report) -> Iterator[str]:
    for notice in report.notices:
        yield f"<p>{_text(notice.sentence)}</p>"
    part = report.faults
    if part is None:
        return
    stories = report.why.sections if report.why is not None else ()
    groups = ((words.BY_REQUIREMENT, part.endangered), (words.PAIRS, part.pairs))
    shown = [(title, [*_endangered(group)]) for title, group in groups if group]
    if part.effects:
        shown.append((words.BY_PART, [*_effects(part.effects)]))
    if stories:
        shown.append((words.STORIES, [line for number, each in enumerate(stories, 1) for line in _story(number, each)]))
    yield from (f"<p>{_text(sentence)}</p>" for sentence in part.answer)
    if len(shown) > 1:
        links = (f'<li><a href="#s{number}">{_text(title)}</a></li>' for number, (title, _) in enumerate(shown, 1))
        yield f"<nav><ul>{''.join(links)}</ul></nav>"
    for number, (title, lines) in enumerate(shown, 1):
        yield f'<section><h2 id="s{number}">{_text(title)}</h2>'
        yield from lines
        yield "</section>"


def _cautions(report: Report) -> Iterator[str]:
    if report.faults is not None:
        lines = "".join(f"<li>{_text(caution)}</li>" for caution in report.faults.cautions)
        yield f'<div class="cautions"><strong>{_text(words.CAUTIONS)}</strong><ul>{lines}</ul></div>'


def _endangered(parts: Sequence[EndangeredPart]) -> Iterator[str]:
    for part in parts:
        yield f'<article class="{_class(part.severity)}"><div class="head">'
        yield f"<h3>{_mark(part.severity)} {_named(part.name, part.label)}</h3>"
        if part.text:
            yield f"<p><code>{_text(part.text)}</code></p>"
        place = f" [{_text(part.place)}]" if part.place else ""
        yield f"<p>{_text(part.guards)}{place}</p>"
        yield f"<p>{_text(part.sentence)}</p></div>"
        if part.hits:
            yield from _table([words.FAULT, words.WHEN, words.STORY, words.NOTICED])
            yield from (_hit(hit) for hit in part.hits)
            yield "</tbody></table>"
        yield from (f"<p>? {_text(each)}</p>" for each in part.open)
        yield "</article>"


def _hit(hit: HitPart) -> str:
    link = f' <a href="#story{hit.number}">[{hit.number}]</a>' if hit.number else ""
    head = f'<th scope="row" role="rowheader">{_text(hit.fault)}{link}</th>'
    noticed = f'<span class="hidden">{_text(hit.noticed)}</span>' if hit.hidden else _text(hit.noticed)
    cells = (_cell(words.WHEN, _text(hit.when)), _cell(words.STORY, _text(hit.story)), _cell(words.NOTICED, noticed))
    return f'<tr role="row">{head}{"".join(cells)}</tr>'


def _effects(effects: Sequence[EffectPart]) -> Iterator[str]:
    heads = [words.PART, words.MODE, words.LOCAL, words.END, words.SEVERITY, words.NOTICED]
    yield from _table(heads)
    for row in effects:
        place = f", {_text(row.place)}" if row.place else ""
        part = f'{_named(row.part, row.label)}<br><span class="kind">{_text(row.kind)}{place}</span>'
        noticed = f'<span class="hidden">{_text(row.noticed)}</span>' if row.hidden else _text(row.noticed)
        cells = (_text(row.mode), _text(row.local), "<br>".join(map(_text, row.ends)), _mark(row.severity), noticed)
        told = "".join(_cell(head, cell) for head, cell in zip(heads[1:], cells, strict=True))
        yield f'<tr role="row" class="{_class(row.severity)}"><th scope="row" role="rowheader">{part}</th>{told}</tr>'
    yield "</tbody></table>"


def _table(heads: Sequence[str]) -> Iterator[str]:
    """A table up to its rows."""
    cells = "".join(f'<th scope="col" role="columnheader">{_text(head)}</th>' for head in heads)
    yield f'<table class="rows" role="table"><thead role="rowgroup"><tr role="row">{cells}</tr></thead>'
    yield '<tbody role="rowgroup">'


def _cell(head: str, inner: str) -> str:
    return f'<td role="cell" data-head="{_text(head)}">{inner}</td>'


def _story(number: int, section: WhySection) -> Iterator[str]:
    yield f'<article class="story"><h3 id="story{number}">{_text(section.title)}</h3>'
    yield from (f"<p>{_text(cause.sentence)}</p>" for cause in section.causes)
    if section.table is not None:
        yield f'<div class="scroll">{"".join(_moments(section.table))}</div>'
    yield from (f"<p>{_text(sentence)}</p>" for sentence in section.sentences)
    yield "</article>"


def _moments(table: Table) -> Iterator[str]:
    yield "<table><thead><tr><td></td>"
    yield from (f'<th scope="col">{_text(column)}</th>' for column in table.columns)
    yield "</tr></thead>"
    for group in table.groups:
        yield f'<tbody><tr><th scope="rowgroup" colspan="{len(table.columns) + 1}">{_text(group.title)}</th></tr>'
        for row in group.rows:
            cells = "".join(f"<td>{_text(cell)}</td>" for cell in row.cells)
            yield f'<tr><th scope="row">{_named(row.name, row.label)}</th>{cells}</tr>'
        yield "</tbody>"
    yield "</table>"


def _footer(report: Report) -> Iterator[str]:
    yield "<footer>"
    if report.basis is not None:
        rests = ((TAKEN_AS_GIVEN, report.basis.assumptions), (NOT_COVERED, report.basis.limits))
        for title, lines in rests:
            if lines:
                yield f"<p><strong>{_text(title)}</strong></p>"
                yield f"<ul>{''.join(f'<li>{_text(line)}</li>' for line in lines)}</ul>"
        yield f"<p>{_text(report.basis.caution)}</p>"
        yield from (f"<p>{_text(line)}</p>" for line in report.basis.colophon)
    if report.closing:
        yield f"<p>{_text(report.closing)}</p>"
    yield "</footer>"


def _class(severity: Severity) -> str:
    return severity.value.replace(" ", "-")


def _mark(severity: Severity) -> str:
    sign = f'<span aria-hidden="true">{SIGNS[severity]}</span>'
    return f'<span class="mark">{sign} {_text(severity.value)}</span>'


def _named(name: str, label: str) -> str:
    return _text(name) if label in ("", name) else f"{_text(name)} \u201c{_text(label)}\u201d"


def _text(text: str) -> str:
    """Text that means nothing but itself, in an element or an attribute."""
    return escape(printable(text))
