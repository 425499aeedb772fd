"""What a drawing is made of: lines, boxes and texts with known extents; and the symbols of IEC 60617 made of them.

Symbols are drawn from memory of the standard: make contact, diode, fuse, earth, operating device of a relay.
"""

from __future__ import annotations

from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.widths import columns_of
from logiccheck.report.drawing import Symbol

SIZE = 10  # of letters
WIDE = 6  # of one letter: the drawing is set in letters of one width, and each text is held to its own
LEADING = 12  # from one line of text to the next
ASCENT, DESCENT = 8, 3  # what a line of text takes above and below its foot


@frozen
class Stroke:
    """A line through these points; `heavy`: a bar at which several meet."""

    points: tuple[tuple[int, int], ...]
    heavy: bool = False
    closed: bool = False
    filled: bool = False


@frozen
class Box:
    """An empty rectangle."""

    left: int
    top: int
    width: int
    height: int


@frozen
class Dot:
    """Here lines are joined."""

    x: int
    y: int


@frozen
class Text:
    """A line of text that begins at `x` and stands on `y`."""

    x: int
    y: int
    text: str
    strong: bool = False
    size: int = SIZE

    @property
    def width(self) -> int:
        return wide(self.text) * self.size // SIZE


Mark: TypeAlias = Stroke | Box | Dot | Text


def wide(text: str) -> int:
    """How much room a text takes from left to right."""
    return WIDE * columns_of(text)


WIDTHS = {Symbol.CONTACT: 36, Symbol.DIODE: 30, Symbol.FUSE: 36, Symbol.LOAD: 34, Symbol.COIL: 24}
RISE = {Symbol.CONTACT: 12, Symbol.DIODE: 8, Symbol.FUSE: 7, Symbol.LOAD: 8, Symbol.COIL: 11}
"""How far each reaches up from its line, and what is below reaches at most as far down."""


def symbol(kind: Symbol, x: int, y: int) -> tuple[Mark, ...]:
    """The symbol between `x` and `x` + its width, on the line at height `y`."""
    match kind:
        case Symbol.CONTACT:
            return (
                Stroke(((x, y), (x + 8, y), (x + 29, y - 11))),
                Stroke(((x + 28, y), (x + 36, y))),
            )
        case Symbol.DIODE:
            triangle = ((x + 9, y - 7), (x + 9, y + 7), (x + 21, y))
            return (
                Stroke(((x, y), (x + 30, y))),
                Stroke(triangle, closed=True, filled=True),
                Stroke(((x + 21, y - 7), (x + 21, y + 7))),
            )
        case Symbol.FUSE:
            return (Stroke(((x, y), (x + 36, y))), Box(x + 6, y - 5, 24, 10))
        case Symbol.LOAD:
            return (
                Stroke(((x, y), (x + 6, y))),
                Box(x + 6, y - 7, 28, 14),
                Stroke(((x + 28, y - 7), (x + 34, y), (x + 28, y + 7))),
            )
        case Symbol.COIL:
            return (Stroke(((x, y), (x + 8, y))), Box(x + 8, y - 10, 16, 20))


def battery(x: int, y: int) -> tuple[Mark, ...]:
    """A source, whose plus is at the line that goes on to the right at `x`."""
    return (
        Stroke(((x - 6, y), (x, y))),
        Stroke(((x - 6, y - 9), (x - 6, y + 9))),
        Stroke(((x - 11, y - 4), (x - 11, y + 4)), heavy=True),
    )


def earth(x: int, y: int) -> tuple[Mark, ...]:
    """Ground, whose line goes on to the right at `x`."""
    bars = ((8, 10), (12, 6), (16, 2))
    return (
        Stroke(((x - 8, y), (x, y))),
        *(Stroke(((x - back, y - half), (x - back, y + half))) for back, half in bars),
    )
