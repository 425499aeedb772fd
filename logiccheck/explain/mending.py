"""What came of the search for edits that would mend a requirement."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.edit import Edit, EditKind


class Cut(Enum):
    """Why not all edits were tried."""

    TIME = "time"
    MEMORY = "memory"
    INTERRUPTED = "interrupted"


@frozen
class Mending:
    """The edits that mend the requirement, the smallest first.

    `like`: they are those of this other requirement. `tried`: how many edits were, and of which kinds. `cut`: why not
    all of them.
    """

    edits: tuple[Edit, ...] = ()
    like: str = ""
    tried: int = 0
    kinds: tuple[EditKind, ...] = ()
    cut: Cut | None = None
