"""A drawn harness in points: how wide each column is and how high each row, so that nothing that is written overlaps.

From left to right: what sources and grounds are called, then for each column its tracks, the names of its wires, and
the symbols on what leads on; then loads and coils, the box, and what it switches. No two of these share a place.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, field
from itertools import accumulate

from logiccheck.render.drawn.harness.layers import Layers, layered
from logiccheck.render.drawn.harness.marks import ASCENT, DESCENT, LEADING, RISE, WIDTHS, wide
from logiccheck.report.drawing import Drawing, End, Link, Node, NodeSort, Symbol

MARGIN, GAP, TRACK, HEAD = 24, 10, 12, 98
MOST_ABOVE, MOST_BESIDE = 30, 40  # letters of a line at a contact, and of a line beside something
END_MARK = 22  # room for a battery or an earth


@dataclass(slots=True)
class Placed:
    """Where columns begin and rows lie; all the texts as the lines that they are set in."""

    drawing: Drawing
    layers: Layers = field(init=False)
    tracks: list[int] = field(init=False)  # where the tracks of each column begin
    names: list[int] = field(init=False)  # where the names of its wires begin
    symbols: list[int] = field(init=False)  # where the symbols begin on what leads on
    turns: list[int] = field(init=False)  # where what leads back turns
    outside_texts: int = field(init=False)  # where the texts begin of loads and coils
    box: int = field(init=False)
    box_right: int = field(init=False)  # where in the box the texts begin of what hangs on no wire
    box_end: int = field(init=False)
    beyond_texts: int = field(init=False)
    rows: list[int] = field(init=False)  # the height of the line of each row
    width: int = field(init=False)
    bottom: int = field(init=False)

    def __post_init__(self) -> None:
        self.layers = layered(self.drawing)
        self._across()
        self._down()

    # ----------------------------------------------------------------------------------------------------- across

    def _across(self) -> None:
        ends = [node for node in self.drawing.nodes if node.sort is not NodeSort.WIRE]
        x = MARGIN + max((self._widest(node.name, *self.beside(node.lines)) for node in ends), default=0)
        x += GAP + END_MARK
        self.tracks, self.names, self.symbols, self.turns = [], [], [], []
        for column in range(self.layers.columns):
            self.tracks.append(x)
            x += TRACK * self.layers.tracks(column)
            self.names.append(x)
            wires = [n for n in self._at(column) if n.sort is NodeSort.WIRE]
            x += max((GAP + self._widest(node.name, *self.beside(node.lines)) for node in wires), default=0)
            self.symbols.append(x + GAP)
            leading = [link for link in self.drawing.links if self.layers.nodes[link.tail].column == column]
            x += max((self.link_width(link) for link in leading), default=0) + 2 * GAP
            self.turns.append(x)
            x += GAP
        self._across_ends(x)

    def _across_ends(self, x: int) -> None:
        outside = [end for end in self.drawing.ends if not end.inside]
        inside = [end for end in self.drawing.ends if end.inside]
        self.outside_texts = x + max((symbols_width(end.symbols) for end in outside), default=0) + GAP
        x = self.outside_texts + max((self._end_width(end) for end in outside), default=-GAP) + 2 * GAP
        self.box = x
        if inside:
            left = [self._end_width(end) for end in inside if not at_right(end)]
            right = [self._end_width(end) for end in inside if at_right(end)]
            self.box_right = x + max(left, default=0) + 3 * GAP
            x = max(self.box_right + max(right, default=-2 * GAP) + GAP, x + max(map(wide, self.drawing.box)))
        self.box_end = x
        self.beyond_texts = x + max((symbols_width(end.beyond) for end in inside), default=0) + GAP
        beyond = [self._widest(*self.beside(end.beyond_lines)) for end in inside if end.beyond_lines]
        x = self.beyond_texts + max(beyond, default=0) + MARGIN
        texts = (*self.drawing.legend, *self.drawing.foot, self.drawing.subtitle)
        self.width = max(x, 2 * MARGIN + max(map(wide, texts), default=0))
        self.width = max(self.width, 2 * MARGIN + 2 * wide(self.drawing.title))

    def _at(self, column: int) -> list[Node]:
        return [node for node in self.drawing.nodes if self.layers.nodes[node.name].column == column]

    @staticmethod
    def _widest(*texts: str) -> int:
        return max(map(wide, texts), default=0)

    def link_width(self, link: Link) -> int:
        """The room that the symbols on a link take, with what stands at them."""
        return max(symbols_width(link.symbols), self._widest(*self.above(link)), wide(link.below))

    def _end_width(self, end: End) -> int:
        return self._widest(end.name, *self.beside(end.lines))

    # ------------------------------------------------------------------------------------------------------- down

    def _down(self) -> None:
        up, down = [ASCENT] * self.layers.rows, [DESCENT] * self.layers.rows
        for node in self.drawing.nodes:
            row = self.layers.nodes[node.name].named
            lines = len(self.beside(node.lines))
            wire = node.sort is NodeSort.WIRE
            up[row] = max(up[row], 5 + ASCENT if wire else 12)
            down[row] = max(down[row], LEADING * lines + (4 if wire else 8))
        for number, link in enumerate(self.drawing.links):
            row = self.layers.links[number].row
            rise = max((RISE[each] for each in link.symbols), default=3)
            up[row] = max(up[row], rise + LEADING * len(self.above(link)) + 4)
            down[row] = max(down[row], rise, 8 + LEADING if link.below else 0)
        for number, end in enumerate(self.drawing.ends):
            row = self.layers.ends[number]
            lines = max(len(self.beside(end.lines)), len(self.beside(end.beyond_lines)) - 1)
            rise = max((RISE[each] for each in (*end.symbols, *end.beyond)), default=ASCENT)
            up[row], down[row] = max(up[row], rise), max(down[row], rise, 4 + DESCENT + LEADING * lines)
        steps = [down[row - 1] + up[row] + GAP if row else HEAD + up[0] for row in range(self.layers.rows)]
        self.rows = list(accumulate(steps))
        self.bottom = (self.rows[-1] + down[-1] if self.rows else HEAD) + 2 * GAP

    # ------------------------------------------------------------------------------------------------------ texts

    @staticmethod
    def above(link: Link) -> list[str]:
        """The lines over a link."""
        return textwrap.wrap(link.above, MOST_ABOVE)

    @staticmethod
    def beside(lines: tuple[str, ...]) -> list[str]:
        """The lines beside something, none longer than there is room for."""
        return [part for line in lines for part in textwrap.wrap(line, MOST_BESIDE, subsequent_indent="  ")]

    def bar(self, name: str) -> int:
        """Where a node stands from left to right."""
        stands = self.layers.nodes[name]
        return self.tracks[stands.column] + TRACK * stands.track


def at_right(end: End) -> bool:
    """It stands in the right half of the box: something is switched there, and no wire of the harness leads there."""
    return end.inside and bool(end.beyond) and not end.wire


def symbols_width(symbols: tuple[Symbol, ...]) -> int:
    """The room that these symbols take one after another."""
    return sum(WIDTHS[each] for each in symbols)
