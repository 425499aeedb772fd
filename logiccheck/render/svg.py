"""The harness as a picture (SVG 1.1): black on white, for screen and paper, with nothing in it that leads outside."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import assert_never
from xml.sax.saxutils import escape, quoteattr

from logiccheck.render.drawn.harness.marks import LEADING, Box, Dot, Mark, Stroke, Text, battery, earth, symbol
from logiccheck.render.drawn.placed import GAP, HEAD, MARGIN, Placed, at_right, symbols_width
from logiccheck.report.drawing import Drawing, End, Link, Node, NodeSort, Symbol

_NO_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
FONT = "DejaVu Sans Mono, Menlo, Consolas, Liberation Mono, Courier New, monospace"


def render(drawing: Drawing) -> str:
    """The drawing; each part is a group that says in `data-part` which it is."""
    placed = Placed(drawing)
    picture = _Picture(placed)
    body = "\n".join(picture.groups())
    height = placed.bottom + LEADING * (len(drawing.legend) + len(drawing.foot) + 5) + MARGIN
    size = f'width="{placed.width}" height="{height}" viewBox="0 0 {placed.width} {height}"'
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" {size} font-family={quoteattr(FONT)} '
        'fill="none" stroke="#000000" stroke-width="1.2" stroke-linejoin="round">\n'
        f"<title>{_text(drawing.title)}</title>\n"
        f'<rect x="0" y="0" width="{placed.width}" height="{height}" fill="#ffffff" stroke="none"/>\n'
        f"{body}\n</svg>\n"
    )


@dataclass(frozen=True, slots=True)
class _Picture:
    placed: Placed

    @property
    def drawing(self) -> Drawing:
        return self.placed.drawing

    def groups(self) -> Iterator[str]:
        """All of it, what is behind first."""
        yield from map(_drawn, self._title())
        yield from map(_drawn, self._frame())
        for number, link in enumerate(self.drawing.links):
            yield _group(link.part, self._link(number, link))
        for number, end in enumerate(self.drawing.ends):
            yield _group(end.part, self._end(number, end))
        for node in self.drawing.nodes:
            yield _group(node.part, self._node(node))
        yield from map(_drawn, self._foot())

    def _title(self) -> Iterator[Mark]:
        yield Text(MARGIN, MARGIN + 10, self.drawing.title, strong=True, size=20)
        yield Text(MARGIN, MARGIN + 28, self.drawing.subtitle)

    def _frame(self) -> Iterator[Mark]:
        """The box, around all that is in it."""
        rows = [self.placed.layers.ends[n] for n, end in enumerate(self.drawing.ends) if end.inside]
        if rows:
            top = HEAD - LEADING - 6
            bottom = self.placed.bottom - GAP
            yield Box(self.placed.box, top, self.placed.box_end - self.placed.box, bottom - top)
            for number, line in enumerate(self.drawing.box):
                yield Text(self.placed.box, top - 5 - LEADING * number, line, strong=True)

    # ------------------------------------------------------------------------------------------------------ nodes

    def _node(self, node: Node) -> Iterator[Mark]:
        stands = self.placed.layers.nodes[node.name]
        x, y = self.placed.bar(node.name), self.placed.rows[stands.named]
        if len(stands.rows) > 1:
            rows = (self.placed.rows[stands.rows[0]], self.placed.rows[stands.rows[-1]])
            yield Stroke(((x, rows[0]), (x, rows[1])), heavy=True)
        yield from (Dot(x, self.placed.rows[row]) for row in stands.rows)
        if node.sort is NodeSort.WIRE:
            left = self.placed.names[stands.column] + GAP
            if not self._goes_on(node.name, stands.named):
                yield Stroke(((x, y), (self.placed.symbols[stands.column] - GAP, y)))
            yield Text(left, y - 5, node.name, strong=True)
            yield from self._lines(left, y + 1, self.placed.beside(node.lines))
            return
        left = self.placed.tracks[0]
        yield from (battery if node.sort is NodeSort.SOURCE else earth)(left, y)
        if x > left:
            yield Stroke(((left, y), (x, y)))
        yield Text(MARGIN, y - 4, node.name, strong=True)
        yield from self._lines(MARGIN, y - 4, self.placed.beside(node.lines))

    def _goes_on(self, name: str, row: int) -> bool:
        """Something leads on from the node in this row, so that its name has a line to stand on."""
        layers = self.placed.layers
        links = (layers.links[number].row for number, link in enumerate(self.drawing.links) if link.tail == name)
        ends = (layers.ends[number] for number, end in enumerate(self.drawing.ends) if end.wire == name)
        return row in (*links, *ends)

    @staticmethod
    def _lines(x: int, y: int, lines: Iterable[str]) -> Iterator[Mark]:
        """Lines of text below the height `y`."""
        return (Text(x, y + LEADING * number, line) for number, line in enumerate(lines, start=1))

    # ------------------------------------------------------------------------------------------------------ links

    def _link(self, number: int, link: Link) -> Iterator[Mark]:
        runs, tail = self.placed.layers.links[number], self.placed.layers.nodes[link.tail]
        begin, end = self.placed.bar(link.tail), self.placed.bar(link.head)
        y, x = self.placed.rows[runs.row], self.placed.symbols[tail.column]
        above = self.placed.above(link)
        if link.symbols:
            yield Stroke(((begin, y), (x, y)))
        yield from _row(link.symbols, x, y)
        rise = 16 if link.symbols else 5
        for line, text in enumerate(above):
            yield Text(x, y - rise - LEADING * (len(above) - 1 - line), text)
        if link.below:
            yield Text(x + symbols_width(link.symbols[:-1]) + 6, y + 8 + LEADING - 4, link.below)
        after = x + symbols_width(link.symbols) if link.symbols else begin
        if runs.back is None:
            yield Stroke(((after, y), (end, y)))
        else:
            turn, back = self.placed.turns[tail.column], self.placed.rows[runs.back]
            yield Stroke(((after, y), (turn, y), (turn, back), (end, back)))

    # ------------------------------------------------------------------------------------------------------- ends

    def _end(self, number: int, end: End) -> Iterator[Mark]:
        y = self.placed.rows[self.placed.layers.ends[number]]
        x = (self.placed.box if end.inside else self.placed.outside_texts - GAP) - symbols_width(end.symbols)
        if end.wire:
            yield Stroke(((self.placed.bar(end.wire), y), (x, y)))
        if end.feeds:
            yield Stroke(((x, y - 4), (x - 9, y), (x, y + 4)), closed=True, filled=True)
        yield from _row(end.symbols, x, y)
        inside = self.placed.box_right if at_right(end) else self.placed.box + GAP
        left = inside if end.inside else self.placed.outside_texts
        yield Text(left, y + 3, end.name, strong=bool(end.part))
        yield from self._lines(left, y + 3, self.placed.beside(end.lines))
        yield from _row(end.beyond, self.placed.box_end, y)
        yield from self._lines(self.placed.beyond_texts, y + 3 - LEADING, self.placed.beside(end.beyond_lines))

    # ------------------------------------------------------------------------------------------------------- foot

    def _foot(self) -> Iterator[Mark]:
        x, y = MARGIN, self.placed.bottom + LEADING + 4
        for kind, word in self.drawing.key:
            yield from symbol(kind, x, y)
            text = Text(x + symbols_width((kind,)) + 6, y + 3, word)
            yield text
            x = text.x + text.width + 24
        yield from self._lines(MARGIN, y + LEADING, (*self.drawing.legend, *self.drawing.foot))


def _row(symbols: tuple[Symbol, ...], x: int, y: int) -> Iterator[Mark]:
    """Symbols one after another."""
    for number, kind in enumerate(symbols):
        yield from symbol(kind, x + symbols_width(symbols[:number]), y)


# --------------------------------------------------------------------------------------------------------------- text


def _group(part: str, marks: Iterable[Mark]) -> str:
    named = f" data-part={quoteattr(_clean(part))}" if part else ""
    return f"<g{named}>{''.join(map(_drawn, marks))}</g>"


def _drawn(mark: Mark) -> str:
    match mark:
        case Stroke(points=points, heavy=heavy, closed=closed, filled=filled):
            ends = " ".join(f"{x},{y}" for x, y in points)
            more = (' stroke-width="2.4"' if heavy else "") + (' fill="#000000"' if filled else "")
            return f'<{"polygon" if closed else "polyline"} points="{ends}"{more}/>'
        case Box(left=left, top=top, width=width, height=height):
            return f'<rect x="{left}" y="{top}" width="{width}" height="{height}"/>'
        case Dot(x=x, y=y):
            return f'<circle cx="{x}" cy="{y}" r="2.6" fill="#000000" stroke="none"/>'
        case Text(x=x, y=y, text=text, strong=strong, size=size):
            if not text:
                return ""
            weight = ' font-weight="bold"' if strong else ""
            fit = f'textLength="{mark.width}" lengthAdjust="spacingAndGlyphs"'
            look = f'font-size="{size}"{weight} fill="#000000" stroke="none" xml:space="preserve"'
            return f'<text x="{x}" y="{y}" {fit} {look}>{_text(text)}</text>'
    assert_never(mark)


def _text(text: str) -> str:
    return escape(_clean(text))


def _clean(text: str) -> str:
    """Without what XML cannot hold."""
    return _NO_XML.sub("?", text)
