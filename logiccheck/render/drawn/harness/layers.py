"""Where the parts of a drawn harness stand, in columns and rows: nodes by their distance from sources, left to right.

Each link and each end has a row to itself, or shares it with the link that leads to its node: so no two things that
are drawn along a row can meet. A node stands in its column over all rows at which something hangs on it; where that
would make two nodes of a column meet, one of them moves to another track of the column.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count

from logiccheck.base.frozen import frozen
from logiccheck.report.drawing import Drawing, Link, NodeSort


@frozen
class Stands:
    """A node: its column from 0, its track in it from 0, the row at which its name stands, and its rows, rising."""

    column: int
    track: int
    named: int
    rows: tuple[int, ...]


@frozen
class Runs:
    """A link: its row, and the row on which it comes back to a node that stands no further right, if it has to."""

    row: int
    back: int | None


@frozen
class Layers:
    """`nodes` by name; `links` and `ends` in the order of the drawing, of an end its row."""

    nodes: dict[str, Stands]
    links: tuple[Runs, ...]
    ends: tuple[int, ...]
    columns: int
    rows: int

    def tracks(self, column: int) -> int:
        """How many tracks a column has."""
        return 1 + max((node.track for node in self.nodes.values() if node.column == column), default=0)


def layered(drawing: Drawing) -> Layers:
    """A place for everything in the drawing."""
    columns = _columns(drawing)
    rows = _Rows(drawing, columns)
    rows.place_all()
    nodes = _tracked(columns, rows)
    links = tuple(rows.of_links[number] for number in range(len(drawing.links)))
    ends = tuple(rows.of_ends[number] for number in range(len(drawing.ends)))
    return Layers(nodes, links, ends, 1 + max(columns.values(), default=0), rows.used)


def _columns(drawing: Drawing) -> dict[str, int]:
    """Sources and grounds in column 0, each wire right of all that lead to it; what leads back is left out of that."""
    heads: dict[str, list[str]] = {node.name: [] for node in drawing.nodes}
    for link in drawing.links:
        if link.head not in heads[link.tail]:
            heads[link.tail].append(link.head)
    order = _order([node.name for node in drawing.nodes], heads)
    columns = {node.name: int(node.sort is NodeSort.WIRE) for node in drawing.nodes}
    place = {name: number for number, name in enumerate(order)}
    ends = {node.name for node in drawing.nodes if node.sort is not NodeSort.WIRE}
    for name in order:
        for head in heads[name]:
            if place[head] > place[name] and head not in ends:
                columns[head] = max(columns[head], columns[name] + 1)
    return columns


def _order(names: list[str], heads: dict[str, list[str]]) -> list[str]:
    """Each before all that it leads to, but where that is a circle (reverse order of leaving, depth first)."""
    left: list[str] = []
    met: set[str] = set()
    for root in names:
        if root in met:
            continue
        met.add(root)
        path = [(root, iter(heads[root]))]
        while path:
            name, onward = path[-1]
            head = next((each for each in onward if each not in met), None)
            if head is None:
                left.append(name)
                path.pop()
            else:
                met.add(head)
                path.append((head, iter(heads[head])))
    return left[::-1]


@dataclass(slots=True)
class _Rows:
    """Rows are given out from the top, going down each branch to its end before the next."""

    drawing: Drawing
    columns: dict[str, int]
    used: int = 0
    named: dict[str, int] = field(default_factory=dict)
    of_nodes: dict[str, set[int]] = field(default_factory=dict)
    of_links: dict[int, Runs] = field(default_factory=dict)
    of_ends: dict[int, int] = field(default_factory=dict)

    def place_all(self) -> None:
        """A row for everything."""
        over = self._over()
        leading: dict[str, list[tuple[int, Link]]] = {node.name: [] for node in self.drawing.nodes}
        hanging: dict[str, list[int]] = {node.name: [] for node in self.drawing.nodes}
        self.of_nodes = {node.name: set() for node in self.drawing.nodes}
        for number, link in enumerate(self.drawing.links):
            leading[link.tail].append((number, link))
        for number, end in enumerate(self.drawing.ends):
            if end.wire:
                hanging[end.wire].append(number)
        for root in (node.name for node in self.drawing.nodes if node.name not in over):
            path = [self._below(root, self._new(), over, leading[root], hanging[root])]
            while path:
                deeper = next(path[-1], None)
                if deeper is None:
                    path.pop()
                else:
                    name, row = deeper
                    path.append(self._below(name, row, over, leading[name], hanging[name]))
        self._place_loose()

    def _place_loose(self) -> None:
        """What hangs on no wire stands beside what does, where the box has room on that side."""
        ends = self.drawing.ends
        taken = {at_right: self._taken(at_right) for at_right in (False, True)}
        for number, end in enumerate(ends):
            if end.wire:
                continue
            at_right = bool(end.beyond)
            free = (row for row in range(self.used) if end.inside and row not in taken[at_right])
            row = next(free, None)
            self.of_ends[number] = self._new() if row is None else row
            if end.inside:
                taken[at_right].add(self.of_ends[number])

    def _taken(self, at_right: bool) -> set[int]:
        """The rows on which something stands in the box already, on its right or on its left."""
        placed = ((self.drawing.ends[number], row) for number, row in self.of_ends.items())
        return {row for end, row in placed if end.inside and (bool(end.beyond) or not at_right)}

    def _over(self) -> dict[str, int]:
        """The number of the link over which a node is placed: from the nearest column on its left."""
        found: dict[str, int] = {}
        for number, link in enumerate(self.drawing.links):
            tail, head = self.columns[link.tail], self.columns[link.head]
            if tail < head and (
                link.head not in found or tail > self.columns[self.drawing.links[found[link.head]].tail]
            ):
                found[link.head] = number
        return found

    def _below(
        self, name: str, row: int, over: dict[str, int], leading: list[tuple[int, Link]], hanging: list[int]
    ) -> Iterator[tuple[str, int]]:
        """Gives a row to all that begins at a node, the first its own; each node that is placed over a link of these,
        with its row."""
        self.named[name] = row
        rows = self.of_nodes[name]
        rows.add(row)
        free = [row]
        for number, link in leading:
            at = free.pop() if free else self._new()
            rows.add(at)
            back = None if self.columns[link.head] > self.columns[name] else self._new()
            self.of_links[number] = Runs(at, back)
            self.of_nodes[link.head].add(at if back is None else back)
            if over.get(link.head) == number:
                yield link.head, at
        for number in hanging:
            self.of_ends[number] = free.pop() if free else self._new()
            rows.add(self.of_ends[number])

    def _new(self) -> int:
        self.used += 1
        return self.used - 1


def _tracked(columns: dict[str, int], rows: _Rows) -> dict[str, Stands]:
    """The nodes of each column on as few tracks as keep them apart, a row between any two of one track."""
    found: dict[str, Stands] = {}
    last: dict[tuple[int, int], int] = {}  # of each track of each column, the last row that is taken
    for name in sorted(columns, key=lambda name: min(rows.of_nodes[name])):
        column, taken = columns[name], sorted(rows.of_nodes[name])
        track = next(number for number in count() if last.get((column, number), -1) < taken[0])
        last[column, track] = taken[-1]
        found[name] = Stands(column, track, rows.named[name], tuple(taken))
    return found
