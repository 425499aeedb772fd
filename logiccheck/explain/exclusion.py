"""What keeps something from ever being so: parts of it, down in the lines behind it, that exclude each other.

That they do is a proof like any other. Each part has beside it a story in which all the others are so, where one was
found: a near miss.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from logiccheck.base.budget import Budget
from logiccheck.base.span import NOWHERE
from logiccheck.explain.asking import Asking, Never, Seen
from logiccheck.explain.mending import Excluded
from logiccheck.lang.program import And, Expr, Output, Program, Signal, SignalKind
from logiccheck.lang.walk import condition_of, memory
from logiccheck.model.story import Story

MOST_SECONDS = 5.0  # nobody asked for this: it must not keep anybody waiting
DEEPEST = 3  # lines below one another that are looked into


def exclusions(
    program: Program, never: Mapping[str, Expr], seconds: float, progress: Callable[[str], None] = lambda _: None
) -> dict[str, tuple[Excluded, ...]]:
    """For each of these, which can never be so, in so many seconds altogether; none where there was no time, or no
    memory. `progress` is called with what is looked at.

    May raise KeyboardInterrupt, or BugMet.
    """
    found: dict[str, tuple[Excluded, ...]] = {}
    budget = Budget(min(seconds, MOST_SECONDS))
    try:
        for name, expr in never.items():
            if budget.left:
                progress(f"what excludes {name}")
                found[name] = exclusion(program, expr, budget)
    except MemoryError:
        pass
    return found


def exclusion(program: Program, never: Expr, budget: Budget) -> tuple[Excluded, ...]:
    """Parts of `never`, which can never be so, that cannot all be so at once; none where there was no time for it.

    None, too, where all of its own parts are needed, and nothing is known of what is behind them. May raise
    KeyboardInterrupt, MemoryError or BugMet.
    """
    if any(memory(never)):
        return ()
    asking = Asking(program, (never,), budget)
    found: tuple[Excluded, ...] = ()
    parts = tuple(_conditions(never))
    for _ in range(DEEPEST):
        if not isinstance(asking.possible(And(parts)), Never):
            break
        found = _fewest(asking, parts)
        deeper = tuple(dict.fromkeys(part for each in found for part in _behind(program, each.part)))
        if deeper == tuple(each.part for each in found):
            break
        parts = deeper
    return found if {each.part for each in found} != {*_conditions(never)} else ()


def _fewest(asking: Asking, parts: tuple[Expr, ...]) -> tuple[Excluded, ...]:
    """Parts without any that is not needed; tried in the order written."""
    kept = list(parts)
    missed: dict[Expr, Story] = {}
    for part in parts:
        others = [each for each in kept if each is not part]
        answer = asking.possible(And(tuple(others))) if others else None
        if isinstance(answer, Never):
            kept = others
        elif isinstance(answer, Seen):
            missed[part] = answer.story
    return tuple(Excluded(part, missed.get(part)) for part in kept)


def _conditions(expr: Expr) -> Iterator[Expr]:
    if isinstance(expr, And):
        for part in expr.parts:
            yield from _conditions(part)
    else:
        yield expr


def _behind(program: Program, part: Expr) -> tuple[Expr, ...]:
    """What has to be so for a rule or an output to be on, as its line says; the part itself where that cannot be said
    without what is stored."""
    box = program.box
    if box is None or not isinstance(part, Signal) or part.span == NOWHERE:
        return (part,)
    if part.kind not in (SignalKind.RULE, SignalKind.COMMAND, SignalKind.OUTPUT):
        return (part,)
    rule = next(each for each in box.rules if each.name == part.name)
    line = condition_of(rule)
    if any(memory(line)):
        return (part,)
    needed = [Signal(SignalKind.POWERED, "powered")]
    if isinstance(rule, Output) and part.kind is SignalKind.OUTPUT and rule.fed_by is not None:
        needed.append(Signal(SignalKind.LIVE, rule.fed_by, rule.span))
    return (*_conditions(line), *needed)
