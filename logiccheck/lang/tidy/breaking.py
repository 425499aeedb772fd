"""Long lines are broken where the language continues them: before a part of the item, behind a comma, before `or`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.lang.tidy.cells import Cell, cells_of
from logiccheck.lang.tidy.rows import STEP, Code, Row
from logiccheck.lang.tidy.tokens import Token, blanks
from logiccheck.lang.words import SINGLE_LINES

COLUMNS = 120

_BEFORE = {"excused": 1, "while": 1, "or": 2, "|": 2, "and": 3, "xor": 3}
_INSIDE = 4  # brackets: what stands in them is parted after all else


@frozen
class Laid:
    """A row of code and its cells; `gaps` are the blanks before each token where no column asks for more."""

    row: Code
    cells: tuple[Cell, ...]
    gaps: tuple[int, ...]

    def end(self, at: int, gaps: Sequence[int]) -> int:
        """The columns from the begin of the row to the end of the token before `at`, with these gaps."""
        return sum(gap + token.columns for gap, token in zip(gaps[:at], self.row.tokens[:at], strict=True))

    @property
    def width(self) -> int:
        return self.row.indent + self.end(len(self.gaps), self.gaps)


def laid_out(rows: Sequence[Row]) -> list[Row | Laid]:
    """The rows with what is known of their cells, no line longer than it has to be."""
    broken: list[Row] = []
    begun: set[int] = set()
    for row in _laid_out(rows):
        if isinstance(row, Laid):
            broken.extend(_broken(row, row.row.item not in begun))
            begun.add(row.row.item)
        else:
            broken.append(row)
    return _laid_out(broken)


def _laid_out(rows: Sequence[Row]) -> list[Row | Laid]:
    items: dict[int, list[Code]] = {}
    for row in rows:
        if isinstance(row, Code):
            items.setdefault(row.item, []).append(row)
    cells = {item: _cells(lines) for item, lines in items.items()}
    return [_laid(row, next(cells[row.item])) if isinstance(row, Code) else row for row in rows]


def _cells(lines: list[Code]) -> Iterator[tuple[Cell, ...]]:
    """The cells of each line of an item, each counted from the begin of its line; none begins with a cell."""
    tokens = [token for line in lines for token in line.tokens]
    found = cells_of(lines[0].word, lines[0].header, tokens)
    begin = 0
    for number, line in enumerate(lines):
        end = begin + len(line.tokens)
        here = [replace(cell, at=cell.at - begin) for cell in found if begin < cell.at < end]
        aligned = number > 0 and len(here) == 1 if line.header else number == 0
        yield tuple(cell if aligned else replace(cell, column="") for cell in here)
        begin = end


def _laid(row: Code, cells: tuple[Cell, ...]) -> Laid:
    gaps = [0, *(blanks(before, after) for before, after in zip(row.tokens, row.tokens[1:], strict=False))]
    for cell in cells:
        gaps[cell.at] = cell.gap
    return Laid(row, cells, tuple(gaps))


def _broken(laid: Laid, first: bool) -> Iterator[Code]:
    """The line, or the lines into which it is broken; the comment stays with the first."""
    row = laid.row
    at = None
    if laid.width > COLUMNS and (not row.header or row.word in SINGLE_LINES):
        at = _place(laid)
    if at is None:
        yield row
        return
    yield replace(row, tokens=row.tokens[:at])
    rest = replace(row, tokens=row.tokens[at:], indent=row.indent + (STEP if first else 0), comment="")
    cells = tuple(replace(cell, at=cell.at - at) for cell in laid.cells if cell.at > at)
    yield from _broken(Laid(rest, cells, (0, *laid.gaps[at + 1 :])), first=False)


def _place(laid: Laid) -> int | None:
    """The token before which the line is broken: the last that leaves a line short enough, at the best kind of place
    there is; None if there is no place for it."""
    places = _places(laid)
    fitting = [(kind, -at) for at, kind in places.items() if laid.row.indent + laid.end(at, laid.gaps) <= COLUMNS]
    if fitting:
        return -min(fitting)[1]
    return min(places, default=None)


def _places(laid: Laid) -> dict[int, int]:
    """The tokens before which a line may be broken, and the kind of place each is: 0 is best."""
    places: dict[int, int] = {}
    depth = 0
    tokens: tuple[Token, ...] = laid.row.tokens
    for at, token in enumerate(tokens):
        depth -= token.text in (")", "}")
        kind = 1 if at and tokens[at - 1].text == "," else _BEFORE.get(token.text)
        if at and kind is not None:
            places[at] = kind + (_INSIDE if depth else 0)
        depth += token.text in ("(", "{")
    places.update((cell.at, 0) for cell in laid.cells if cell.breaks)
    return places
