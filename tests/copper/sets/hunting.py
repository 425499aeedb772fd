"""All cut sets of one requirement, with no regard to others."""

from __future__ import annotations

from logiccheck.copper.sets.breaking import Cuts
from logiccheck.copper.sets.search import Hunt
from logiccheck.lang.program import Requirement


def cuts_of(hunt: Hunt, requirement: Requirement, order: int) -> Cuts:
    """Up to this order, one number of faults after the other."""
    search = hunt.search(requirement, order)
    for number in range(order + 1):
        search.advance(number, hunt.budget)
    return search.found()
