"""Names in lines that could not be read: who uses them is not told that they are unknown."""

from __future__ import annotations

import re

from logiccheck.lang.layout import Piece
from logiccheck.lang.words import RESERVED

_WORD = re.compile(r"[^\W\d_]\w*")


def lost_names(piece: Piece) -> frozenset[str]:
    """The names the piece might declare: its first two words that are not of the language."""
    names: list[str] = []
    for found in _WORD.finditer(piece.text[:200]):
        if found[0] not in RESERVED:
            names.append(found[0])
        if len(names) == 2:
            break
    if piece.word == "controller":
        names.append("powered")
    return frozenset(names)
