"""Holds the cut sets that the checker finds against those of brute force."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.parts import faults_of
from logiccheck.copper.sets.of_faults import Faulty, faulty
from logiccheck.copper.sets.search import Hunt
from logiccheck.lang.program import Possible, Requirement
from tests.copper.naming import matched
from tests.copper.sets.hunting import cuts_of
from tests.copper.subsets import cut_sets, that_matter
from tests.oracle.broken.asked import Explored
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded


@dataclass
class Cuttings:
    """How many sets were met, by how many faults they have, and what was left out."""

    sets: Counter[int] = field(default_factory=Counter)
    requirements: int = 0
    blocked: int = 0
    skipped: int = 0
    undecided: int = 0

    def line(self) -> str:
        sizes = ", ".join(f"{size}: {self.sets[size]}" for size in sorted(self.sets))
        return (
            f"{self.requirements} requirements ({self.skipped} too big, {self.undecided} not decided to the end), "
            f"sets by number of faults: {sizes}; sets that block: {self.blocked}"
        )


def compare_cuts(text: str, order: int, limit: int, most: int, tally: Cuttings, seconds: float = 20) -> list[str]:
    """How the two differ on the requirements of one vehicle; of those to which more than `most` faults can matter,
    none is asked."""
    vehicle = Explored(loaded(text), limit)
    same = matched(vehicle.program, vehicle.faults)
    broken = faulty(vehicle.program, faults_of(vehicle.program))
    found = []
    for requirement in vehicle.program.requirements:
        if isinstance(requirement.form, Possible) or len(that_matter(vehicle, requirement)) > most:
            continue
        try:
            mine = cut_sets(vehicle, requirement, order)
        except TooBig:
            tally.skipped += 1
            continue
        names = {frozenset(same[x].id for x in each) for each in mine.sets}
        blocked = {frozenset(same[x].id for x in each) for each in mine.blocked}
        found += [
            f"{requirement.name}: {line}" for line in differ(broken, requirement, order, names, blocked, tally, seconds)
        ]
    return found


def differ(
    broken: Faulty,
    requirement: Requirement,
    order: int,
    mine: set[frozenset[str]],
    blocked: set[frozenset[str]],
    tally: Cuttings,
    seconds: float,
) -> list[str]:
    """Each set that only one of the two has. What is blocked may be left out by either."""
    asked = next(x for x in broken.requirements if x.name == requirement.name)
    cuts = cuts_of(Hunt(broken.breaking, (asked,), Budget(seconds)), asked, order)
    sets = {frozenset(broken.faults[i].id for i in each.faults) for each in cuts.sets}
    barred = {frozenset(broken.faults[i].id for i in each.faults) for each in cuts.barred}
    tally.requirements += 1
    tally.blocked += len(blocked)
    tally.sets.update(len(each) for each in mine)
    if cuts.complete != order:
        tally.undecided += 1
    complete = -1 if cuts.complete is None else cuts.complete
    lines = [f"not a cut set: {sorted(each)}" for each in sets - mine]
    missing = (each for each in mine - sets if len(each) <= complete)
    lines += [f"not found: {sorted(each)}" for each in missing if not any(bar <= each for bar in barred)]
    lines += [f"barred, but not blocked: {sorted(each)}" for each in barred if not any(x <= each for x in blocked)]
    return lines
