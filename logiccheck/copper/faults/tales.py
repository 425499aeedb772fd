"""Which tell-tales show that something is broken: not those that come on with nothing broken, too."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.copper.faults.answers import Tales
from logiccheck.copper.faults.asked import shown
from logiccheck.explain.asking import Asking, BugMet, Never, Seen, known
from logiccheck.lang.program import And, Const, Program, TellTale


def tales_of(program: Program, budget: Budget, progress: Callable[[str], None]) -> Tales:
    """Each tell-tale, asked of the vehicle as it is. May raise KeyboardInterrupt, or MemoryError."""
    found: dict[str, list[TellTale]] = {name: [] for name in ("counted", "always", "unknown", "at_times", "unclear")}
    bugs: list[Bug] = []
    for number, told in enumerate(program.electrics.tell_tales, start=1):
        progress(told.label or told.text)
        try:
            lit, can_be = _as_it_is(program, number, told, budget)
        except BugMet as met:
            bugs.append(met.bug)
            lit, can_be = None, None
        found["always" if lit else "counted" if lit is False else "unknown"].append(told)
        if lit is False and can_be is not False:
            found["at_times" if can_be else "unclear"].append(told)
    return Tales(**{name: tuple(some) for name, some in found.items()}, bugs=tuple(bugs))


def _as_it_is(program: Program, number: int, told: TellTale, budget: Budget) -> tuple[bool | None, bool | None]:
    """Whether it comes on in time whenever its `while` lasts, and whether it can be on then at all; None: that is not
    known."""
    both = And((told.r if told.r is not None else Const(True), told.p))
    asking = Asking(program, (both,), budget, asides=False)
    can_be = known(asking.possible(both))
    if can_be is False:
        return False, False
    match asking.fails(shown(number, told).requirement.form):
        case Seen():
            return False, can_be
        case Never() if can_be:
            return True, True
        case _:
            return None, can_be
