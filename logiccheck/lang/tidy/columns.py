"""Columns: where the parts of neighbouring lines stand under one another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.lang.tidy.breaking import COLUMNS, Laid
from logiccheck.lang.tidy.cells import Cell
from logiccheck.lang.tidy.rows import Blank, Row

_WIDE = 24  # blanks more than needed that a column may leave
_ORDINARY = 16  # columns by which a line may be longer than most and still decide where a column stands
_FEW = 5  # so many lines may one stand beside that is too long for their column
_COMMENT_GAP = 2


@frozen
class _Place:
    """Something that may stand in a column: what stands before it ends at `end`, it stood at `was`, and it and what
    follows it take `width`. It needs `least` blanks before it and has `gap` where it stands in no column."""

    end: int
    was: int
    width: int
    least: int
    gap: int

    def fits(self, column: int) -> bool:
        return self.end + self.least <= column and column + self.width <= COLUMNS

    @property
    def alone(self) -> int:
        """Where it stands in no column."""
        return self.end + self.gap


def in_columns(rows: Sequence[Row | Laid]) -> list[list[int]]:
    """For each row the blanks before each of its tokens, and before its comment where it has one."""
    gaps = [list(row.gaps) if isinstance(row, Laid) else [] for row in rows]
    blocks: dict[int, list[int]] = {}
    for at, row in enumerate(rows):
        if isinstance(row, Laid):
            blocks.setdefault(row.row.block, []).append(at)
    for block in blocks.values():
        _align(block, rows, gaps)
    for paragraph in _paragraphs(rows):
        _align_comments(paragraph, rows, gaps)
    return gaps


def _align(block: list[int], rows: Sequence[Row | Laid], gaps: list[list[int]]) -> None:
    """Put the parts of the items of a block into columns, from left to right; a part that is the only one of its kind
    keeps to a column of others, if it stood in one."""
    members: dict[tuple[int, str], list[tuple[int, Cell]]] = {}
    for at in block:
        laid = rows[at]
        assert isinstance(laid, Laid)
        for cell in laid.cells:
            if cell.column:
                members.setdefault((cell.rank, cell.column), []).append((at, cell))
    used: set[int] = set()
    for _, cells in sorted(members.items(), key=lambda item: (item[0][0], len(item[1]) == 1, item[0][1])):
        places = [_place(rows[at], cell, gaps[at]) for at, cell in cells]
        if len(places) == 1:
            alone = places[0]
            column = alone.was if alone.was in used and alone.was >= alone.alone else None
        else:
            column = _column(places)
            used.update(() if column is None else (column,))
        for (at, cell), place in zip(cells, places, strict=True):
            gaps[at][cell.at] = _stands(place, column) - place.end


def _place(laid: Row | Laid, cell: Cell, gaps: Sequence[int]) -> _Place:
    assert isinstance(laid, Laid)
    tokens = laid.row.tokens
    end = laid.row.indent + laid.end(cell.at, gaps)
    was = laid.row.indent + sum(token.gap + token.columns for token in tokens[: cell.at]) + tokens[cell.at].gap
    rest = laid.end(len(tokens), laid.gaps) - laid.end(cell.at, laid.gaps) - laid.gaps[cell.at]
    return _Place(end, was, rest, 1, cell.gap)


def _stands(place: _Place, column: int | None) -> int:
    return column if column is not None and place.fits(column) else place.alone


def _column(places: Sequence[_Place]) -> int | None:
    """The column in which most of two or more things can stand; None if there is none.

    It stays where more than half stand, one of them with room before it, if few are too long for it and it is not far
    from what stands before it. Else it is as narrow as it can be for all that are not much longer than most. What is
    found here is found again once all that fits stands in it: only what most fit is taken.
    """
    most, count = Counter(place.was for place in places).most_common(1)[0]
    fitting = [place for place in places if place.fits(most)]
    roomy = any(place.was == most >= place.alone for place in fitting)
    if roomy and 2 * count > len(places) and _FEW * (len(places) - len(fitting)) <= len(places):
        near = max(place.alone for place in fitting)
        if most <= near + _WIDE:
            return most
    middle = sorted(place.end for place in places)[len(places) // 2]
    narrow = max(place.alone for place in places if place.end <= middle + _ORDINARY)
    return next((column for column in [narrow, *sorted({p.alone for p in places})] if _suits(column, places)), None)


def _suits(column: int, places: Sequence[_Place]) -> bool:
    return 2 * sum(place.fits(column) for place in places) > len(places)


def _paragraphs(rows: Sequence[Row | Laid]) -> Iterator[list[int]]:
    """Rows with a comment behind their code, between two blank rows or headers."""
    found: list[int] = []
    block = 0
    for at, row in enumerate(rows):
        if isinstance(row, Blank) or (isinstance(row, Laid) and row.row.block != block):
            yield found
            found = []
        if isinstance(row, Laid):
            block = row.row.block
            if row.row.comment:
                found.append(at)
    yield found


def _align_comments(paragraph: list[int], rows: Sequence[Row | Laid], gaps: list[list[int]]) -> None:
    """Put the comments of a paragraph into a column; one that has no neighbour stays where it is."""
    places = []
    for at in paragraph:
        laid = rows[at]
        assert isinstance(laid, Laid)
        end = laid.row.indent + laid.end(len(laid.row.tokens), gaps[at])
        was = laid.row.comment_at + laid.row.item_indent
        places.append(_Place(end, was, len(laid.row.comment), _COMMENT_GAP, _COMMENT_GAP))
    column = places[0].was if len(places) == 1 else _column(places) if places else None
    for at, place in zip(paragraph, places, strict=True):
        gaps[at].append(_stands(place, column) - place.end)
