"""Minimal cut sets: of each requirement the fewest faults that together let it fail, all of them up to some number."""

from __future__ import annotations

from collections.abc import Callable, Collection
from contextlib import suppress

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.parts import Fault
from logiccheck.copper.sets.breaking import Cuts
from logiccheck.copper.sets.of_faults import Faulty, faulty
from logiccheck.copper.sets.search import Hunt, Search
from logiccheck.lang.program import Guard, Possible, Program, Requirement

ROUNDS = 2  # what ran out of its share of the time is tried again with what others left


@frozen
class CutSets:
    """`cuts` of each requirement that was asked, in the order written, of `vehicle`, with at most `order` faults each.
    `possible`: requirements that something is possible, which no story breaks, and so no set of faults."""

    vehicle: Faulty
    order: int
    cuts: tuple[Cuts, ...]
    possible: tuple[Requirement, ...]
    interrupted: bool


def cut_sets(
    program: Program,
    faults: Collection[Fault],
    order: int,
    names: Collection[str],
    budget: Budget,
    progress: Callable[[str], None],
) -> CutSets:
    """The cut sets of the requirements with these names, without names of all written ones that guard against danger,
    made of these faults. `progress` is called with the name of what is asked about next. A KeyboardInterrupt ends the
    search; what was found stays."""
    vehicle = faulty(program, tuple(faults))
    written = {each.name for each in program.requirements if each.guard is Guard.DANGER}
    wanted = [each for each in vehicle.requirements if each.name in (names or written)]
    asked = tuple(each for each in wanted if not isinstance(each.form, Possible))
    hunt = Hunt(vehicle.breaking, asked, budget, progress)
    searches = [hunt.search(each, order) for each in asked]
    interrupted = False
    try:
        for number in range(order + 1):
            for _ in range(ROUNDS):
                _advance(hunt, searches, number, budget)
    except KeyboardInterrupt:
        interrupted = True
    possible = tuple(each for each in wanted if isinstance(each.form, Possible))
    return CutSets(vehicle, order, tuple(each.found() for each in searches), possible, interrupted)


def _advance(hunt: Hunt, searches: list[Search], number: int, budget: Budget) -> None:
    """Each for its share of the time that is left, of which the larger numbers of faults get theirs."""
    open_ = [each for each in searches if not each.done and (-1 if each.complete is None else each.complete) < number]
    if open_ and budget.left:
        with suppress(MemoryError):  # each search meets it again, and says so
            hunt.level(number, budget)  # to be ready for questions takes time, which is nobody's share
    for place, search in enumerate(open_):
        later = search.order - number + 1 if number else 1
        search.advance(number, budget.part(1 / (len(open_) - place) / later))
