"""Failing sets that show in a few moments, many from one search: each story found forbids its set, and the search goes
on.

What is found here needs no trust: each story is played and judged before it counts, and whether there are more is asked
elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.copper.sets.breaking import Faults
from logiccheck.copper.sets.held import Held
from logiccheck.copper.sets.quiet import Quieter
from logiccheck.engine.replay import StoryRefused, confirm
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.engine.troubles import involved
from logiccheck.engine.unroll import Unrolling
from logiccheck.explain.asking import Asking
from logiccheck.lang.program import Form
from logiccheck.model.story import Story

MOST_MOMENTS = 3
SOLVER = "minisat22"  # quicker than others where the same few moments are asked about many times


class Unrolled:
    """Looks for stories of one form, with at most `most` faults, all of them of `left`."""

    def __init__(self, asking: Asking, held: Held, form: Form, left: Faults, most: int, budget: Budget) -> None:
        self.question, self.cone = asking.told(held.said(form))
        self.program, self.held, self.left, self.most, self.budget = asking.program, held, left, most, budget
        self.name = self.question.requirement.name

    def stories(self, known: Iterable[Faults]) -> Iterator[tuple[Faults, Story]]:
        """Sets that hold none of those known, and none found before, each with a story; those that show in the fewest
        moments first. It may end before all are found."""
        unrolling = Unrolling(self.cone, self.budget, SOLVER)
        found = list(known)
        try:
            for _ in range(MOST_MOMENTS):
                unrolling.extend()
                unrolling.may_end_here()
                for each in self._here(unrolling, found):
                    found.append(each[0])
                    yield each
                unrolling.sat.add([-unrolling.bad[-1]])
        except (OutOfTime, StoryRefused):
            return
        finally:
            unrolling.sat.close()

    def _here(self, unrolling: Unrolling, known: Iterable[Faults]) -> Iterator[tuple[Faults, Story]]:
        """With the story ending at the last moment."""
        there = self._there(unrolling)
        sat, bad = unrolling.sat, unrolling.bad[-1]
        for faults in known:
            if faults <= there.keys():
                sat.add([-bad, *(-there[fault] for fault in faults)])
        assumed = [bad, *(-lit for fault, lit in there.items() if fault not in self.left)]
        lits = [lit for fault, lit in there.items() if fault in self.left]
        if self.most < min(len(lits), self.held.most):
            assumed.append(sat.at_most(lits)(self.most))
        quieter = Quieter(unrolling, self.program)
        while (found := unrolling.possible(assumed)) is not None:
            faults = frozenset(fault for fault, lit in there.items() if sat.holds(lit))
            if not faults:
                return
            same = [bad, *(lit if fault in faults else -lit for fault, lit in there.items())]
            yield faults, self._told(quieter.quieter(found[0], same))
            sat.add([-bad, *(-there[fault] for fault in faults)])

    def _there(self, unrolling: Unrolling) -> dict[int, int]:
        """A literal for each fault that the cone knows: it is there at the last moment."""
        moment, coded = unrolling.moments[-1], self.cone.system.world.coded
        sat, found = unrolling.sat, {}
        for fault, ways in enumerate(self.held.where):
            lits = []
            for switch, index in ways:
                if switch in self.cone.world:
                    bits = enumerate(moment.lit(bit) for bit in coded[switch].bits)
                    lit = sat.true
                    for place, bit in bits:
                        lit = sat.both(lit, bit if index >> place & 1 else -bit)
                    lits.append(-lit)
            if lits:
                none = sat.true
                for lit in lits:
                    none = sat.both(none, lit)
                found[fault] = -none
        return found

    def _told(self, trace: Trace) -> Story:
        """The story as played. Raises StoryRefused where it shows nothing."""
        overdue = not holds_last(self.cone, trace, self.question.breach.now)
        story = tell(self.cone, trace, overdue, involved(self.cone))
        confirm(self.program, self.cone, story, self.question.requirement.form, (), self.budget)
        return story
