"""Holds the vehicle in which parts break, as the checker writes it, against the explorer that breaks them itself.

Both sides are explored by brute force: what is compared is what a fault means, not how an answer is searched for.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from logiccheck.copper.faults.changed import together
from logiccheck.lang.program import Requirement
from tests.copper.naming import WHENS, matched
from tests.oracle.broken.asked import Explored
from tests.oracle.broken.parts import Fault, When, whens
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.making import Making
from tests.oracle.oracle import Answer, Kind, decide


@dataclass
class Tally:
    """How often each mode was met, with what came of it, and what was too big to explore."""

    pairs: Counter[tuple[str, str]] = field(default_factory=Counter)
    vehicles: int = 0
    skipped: int = 0

    def note(self, fault: Fault, answer: Answer) -> None:
        self.pairs[f"{type(fault.part).__name__} {fault.mode.value}", answer.kind.value] += 1

    def lines(self) -> list[str]:
        """For people: each mode with how often it breaks something and how often not."""
        modes = sorted({mode for mode, _ in self.pairs})
        kinds = [kind.value for kind in Kind]
        head = f"{self.vehicles} vehicles, {self.pairs.total()} pairs, {self.skipped} too big"
        return [
            head,
            *(f"  {mode:24}" + "".join(f" {kind}: {self.pairs[mode, kind]}" for kind in kinds) for mode in modes),
        ]


def proved(vehicle: Explored) -> list[Requirement]:
    """The requirements that hold as long as nothing is broken."""
    found = []
    for requirement in vehicle.program.requirements:
        try:
            if vehicle.whole(requirement).kind is Kind.PROVED:
                found.append(requirement)
        except TooBig:
            continue
    return found


def compare_meaning(text: str, limit: int, tally: Tally) -> list[str]:
    """How the two differ on one vehicle: every fault, each time it can be there, each requirement that holds whole."""
    vehicle = Explored(loaded(text), limit)
    tally.vehicles += 1
    requirements = proved(vehicle)
    found = []
    for fault, same in matched(vehicle.program, vehicle.faults).items() if requirements else ():
        for when in whens(fault):
            changed, making = together(vehicle.program, (same,), WHENS[when]), Making()
            for requirement in requirements:
                again = next(x for x in changed.requirements if x.name == requirement.name)
                try:
                    mine = vehicle.with_faults(requirement, {fault: when})
                    other = decide(changed, again, 3 * limit, making)
                except TooBig:
                    tally.skipped += 1
                    continue
                tally.note(fault, mine)
                if (mine.kind, mine.moments) != (other.kind, other.moments):
                    found.append(f"{told(fault, when, requirement)}: {mine}, changed: {other}")
    return found


def told(fault: Fault, when: When, requirement: Requirement) -> str:
    return f"{fault.name}, {when.value}, {requirement.name} {requirement.text}"
