"""Minimal cut sets as lines of text, by requirement."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.render.drawn.lines import BAD, FAINT, GAP, STRONG, Look, Printed, wrapped
from logiccheck.report import words_cut_sets as words
from logiccheck.report.cut_sets_part import CutRequirementPart, CutSetsPart


def draw_cut_sets(part: CutSetsPart, look: Look) -> Iterator[Printed]:
    """All of it but the cautions."""
    for sentence in part.answer:
        yield from wrapped(sentence, look)
    yield from ((), ((words.TITLE, STRONG),))
    for each in part.requirements:
        yield from _requirement(each, look)


def _requirement(part: CutRequirementPart, look: Look) -> Iterator[Printed]:
    name = part.name if part.label in ("", part.name) else f'{part.name} "{part.label}"'
    yield ()
    yield ((name, BAD if part.danger and any(part.counts[:2]) else STRONG),)
    if part.text:
        yield from wrapped(part.text, look, indent=GAP)
    place = f"{GAP}[{part.place}]" if part.place else ""
    yield from wrapped(f"{part.guards}{place}", look, indent=GAP, style=FAINT)
    yield from wrapped(part.sentence, look, indent=GAP)
    for each in part.sets:
        yield from wrapped(words.together(each.faults), look, indent=GAP * 2, first=f"{GAP}- ", style=STRONG)
        if each.story:
            yield from wrapped(each.story, look, indent=GAP * 2)
    for sentence in part.left_out:
        yield from wrapped(sentence, look, indent=GAP * 2, first=f"{GAP}? ")
