"""What a vehicle draws as lines of text: what fails, each feed, what comes on together, what tables say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from logiccheck.render.drawn.lines import BAD, FAINT, GAP, STRONG, Look, Printed, wrapped
from logiccheck.report import words_currents as words
from logiccheck.report.currents_part import CurrentsPart, FeedPart, FitPart, PairPart


def draw_currents(part: CurrentsPart, look: Look) -> Iterator[Printed]:
    """All of it but the cautions, which stand at the end of a report."""
    for sentence in part.answer:
        yield from wrapped(sentence, look)
    bad = [pair for pair in part.pairs if pair.word == words.MEET]
    if part.failing or bad:
        yield from ((), ((words.FAILING, STRONG),))
        yield from _fits(part.failing, look)
        for pair in bad:
            yield from _pair(pair, look)
    for feed in part.feeds:
        yield from _feed(feed, look)
    if part.apart:
        yield from ((), ((words.PAIRS_TITLE, STRONG),))
        yield from wrapped(part.apart, look, indent=GAP)
        for pair in part.pairs:
            if pair not in bad:
                yield from _pair(pair, look)
    rest = [fit for fit in part.fits if fit not in part.failing]
    if rest:
        yield from ((), ((words.FITS_TITLE, STRONG),))
        yield from _fits(rest, look)
    yield from _tables(part.tables, look)


def _fits(fits: Sequence[FitPart], look: Look) -> Iterator[Printed]:
    """Each load, output and wire with what was held against tables."""
    for name, group in groupby(fits, key=lambda fit: _labelled(fit.name, fit.label)):
        yield from wrapped(name, look, indent=GAP * 2, first=GAP)
        for fit in group:
            tables = "".join(f" [{number}]" for number in fit.tables)
            said = f"{fit.sentence} {fit.formula}".rstrip() + tables
            style = BAD if fit.word == words.FAILS else ""
            yield from wrapped(said, look, indent=GAP * 3, first=f"{GAP * 2}- ", style=style)


def _pair(pair: PairPart, look: Look) -> Iterator[Printed]:
    style = BAD if pair.word == words.MEET else ""
    said = f"{words.to_name([pair.first, pair.second])}: {pair.sentence}"
    yield from wrapped(said, look, indent=GAP * 2, first=GAP, style=style)


def _feed(feed: FeedPart, look: Look) -> Iterator[Printed]:
    yield ()
    yield from wrapped(f"{_labelled(feed.name, feed.label)}, {feed.kind}", look, style=STRONG)
    width = max(len(word) for word, _ in feed.lines)
    for word, text in feed.lines:
        lead = f"{GAP}{word.ljust(width)}{GAP}"
        yield from wrapped(text, look, indent=" " * len(lead), first=lead)


def _tables(tables: Sequence[str], look: Look) -> Iterator[Printed]:
    if tables:
        yield from ((), ((words.TABLES_TITLE, STRONG),))
    for number, table in enumerate(tables, start=1):
        yield from wrapped(table, look, indent=GAP * 3, first=f"{GAP}[{number}] ", style=FAINT)


def _labelled(name: str, label: str) -> str:
    return name if label in ("", name) else f'{name} "{label}"'
