"""What came of the search for edits that would mend a requirement, and what keeps something from being so."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.edit import Edit, EditKind
from logiccheck.lang.program import Expr
from logiccheck.model.story import Story


class Cut(Enum):
    """Why not all edits were tried."""

    TIME = "time"
    MEMORY = "memory"
    INTERRUPTED = "interrupted"


@frozen
class Mending:
    """The edits that mend the requirement, the smallest first.

    `like`: they are those told of this other requirement. `tried`: how many edits were, and of which kinds. `cut`: why
    not all of them.
    """

    edits: tuple[Edit, ...] = ()
    like: str = ""
    tried: int = 0
    kinds: tuple[EditKind, ...] = ()
    cut: Cut | None = None


@frozen
class Excluded:
    """One of the parts that can never all be so at once; `missed` ends with all the others so, where such a story was
    found."""

    part: Expr
    missed: Story | None
