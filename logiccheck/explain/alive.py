"""Whether what feeds something is alive: that a source dies turns everything off, and shows nothing."""

from __future__ import annotations

from logiccheck.explain.asking import Answer, Asking, Seen
from logiccheck.lang.matters import Names
from logiccheck.lang.program import And, Expr, Program, Signal, SignalKind


def possible_alive(asking: Asking, program: Program, about: Expr, condition: Expr) -> Answer:
    """Whether the condition is ever so, if it can be while every source is live that can matter to `about`."""
    items = Names(program).matter([about]).items
    sources = [Signal(SignalKind.SOURCE, source.name) for source in program.sources]
    live = [source for source in sources if (source.kind.value, source.name) in items]
    answer = asking.possible(And((condition, *live)))
    return answer if isinstance(answer, Seen) or not live else asking.possible(condition)
