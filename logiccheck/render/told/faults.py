"""Single faults as lines of text: by requirement, then by part those with which something fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from logiccheck.render.drawn.lines import BAD, FAINT, GAP, STRONG, Look, Printed, wrapped
from logiccheck.report import words_faults as words
from logiccheck.report.faults_part import EffectPart, EndangeredPart, FaultsPart, HitPart, Severity


def draw_faults(part: FaultsPart, look: Look) -> Iterator[Printed]:
    """All of it but the cautions, which stand at the end of a report."""
    for sentence in part.answer:
        yield from wrapped(sentence, look)
    for title, group in ((words.BY_REQUIREMENT, part.endangered), (words.PAIRS, part.pairs)):
        if group:
            yield from ((), ((title, STRONG),))
        for each in group:
            yield from _endangered(each, look)
    if part.effects:
        yield from ((), ((words.BY_PART, STRONG),))
        yield from _effects(part.effects, look)


def draw_cautions(cautions: Sequence[str], look: Look) -> Iterator[Printed]:
    """What the report does not say."""
    yield from ((), ((words.CAUTIONS, STRONG),))
    for caution in cautions:
        yield from wrapped(caution, look, indent=GAP * 2, first=f"{GAP}- ")


def _endangered(part: EndangeredPart, look: Look) -> Iterator[Printed]:
    name = part.name if part.label in ("", part.name) else f'{part.name} "{part.label}"'
    yield ()
    yield ((words.MARKS[part.severity], BAD if part.severity is Severity.DANGER else STRONG), (GAP + name, STRONG))
    if part.text:
        yield from wrapped(part.text, look, indent=GAP)
    place = f"{GAP}[{part.place}]" if part.place else ""
    yield from wrapped(f"{part.guards}{place}", look, indent=GAP, style=FAINT)
    yield from wrapped(part.sentence, look, indent=GAP)
    if part.brief:
        yield from _brief(part.hits, look)
    else:
        for hit in part.hits:
            yield from _hit(hit, look)
    for each in part.open:
        yield from wrapped(each, look, indent=GAP * 2, first=f"{GAP}? ")


def _brief(hits: Sequence[HitPart], look: Look) -> Iterator[Printed]:
    """The faults alone, those together of which the same is said."""
    groups: dict[tuple[str, str], list[str]] = {}
    for hit in hits:
        groups.setdefault((hit.when, hit.noticed), []).append(
            f"{hit.fault} [{hit.number}]" if hit.number else hit.fault
        )
    for (when, noticed), faults in groups.items():
        yield from wrapped(f"{when}; {noticed}: {', '.join(faults)}", look, indent=GAP * 2, first=f"{GAP}- ")


def _hit(hit: HitPart, look: Look) -> Iterator[Printed]:
    number = f" [{hit.number}]" if hit.number else ""
    line = f"{hit.fault}{number}: {hit.when}; {hit.noticed}"
    yield from wrapped(line, look, indent=GAP * 2, first=f"{GAP}- ", style=STRONG)
    if hit.story:
        yield from wrapped(hit.story, look, indent=GAP * 2)


def _effects(effects: Sequence[EffectPart], look: Look) -> Iterator[Printed]:
    """Each part with the modes that have an end effect, or may have one; then shortly all the others."""
    idle: list[str] = []
    for part, rows in groupby(effects, key=lambda row: (row.kind, row.part, row.label, row.place)):
        told = [*rows]
        some = [row for row in told if row.severity is not Severity.NONE]
        none = [row.mode for row in told if row.severity is Severity.NONE]
        if none:
            idle.append(f"{part[1]} {', '.join(none)}")
        if some:
            yield from _part(some, look)
    if idle:
        yield ()
        yield from wrapped(f"{words.NO_EFFECT}: {'; '.join(idle)}.", look, indent=GAP * 2, first=GAP)


def _part(rows: Sequence[EffectPart], look: Look) -> Iterator[Printed]:
    first = rows[0]
    name = first.part if first.label in ("", first.part) else f'{first.part} "{first.label}"'
    place = f"{GAP}[{first.place}]" if first.place else ""
    yield ()
    yield from wrapped(f"{name}, {first.kind}{place}", look, indent=GAP * 2, first=GAP, style=STRONG)
    for row in rows:
        yield from wrapped(row.local, look, indent=GAP * 3, first=f"{GAP * 2}{row.mode}: ")
        lead = f"{GAP * 3}{row.severity.value}, {row.noticed}: "
        yield from wrapped("; ".join(row.ends), look, indent=GAP * 4, first=lead)
