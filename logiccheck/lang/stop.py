"""Where the parser could not go on with a piece, and what it could have gone on with."""

from __future__ import annotations

from logiccheck.base.frozen import frozen


@frozen
class Stop:
    """Where the parser stopped: offset in the piece, the token that did not fit, and the terminals that would have.

    `kind` is the terminal of the token, "" for a character that begins none, "$END" at the end.
    """

    at: int
    text: str
    kind: str
    expected: frozenset[str]
