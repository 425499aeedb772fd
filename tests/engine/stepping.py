"""Clocks that do as they like, with facts about their deadlines: one step of real deadlines, or any abstract step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from random import Random
from typing import TypeAlias

from logiccheck.engine.cone import Cone
from logiccheck.engine.deadlines import Predicate, Refinement, Tracked
from logiccheck.engine.steps import Doing, clock_differences, conflict, predicate_differences
from logiccheck.model.circuit.aig import FALSE, Aig, Lit, Node
from logiccheck.model.circuit.system import Clock, new_system
from logiccheck.model.circuit.worldcode import WorldCode
from tests.oracle.loading import loaded

NOTHING = loaded('vehicle "T"\nworld\n    a contact\n')


@dataclass(frozen=True)
class Real:
    """A step as it happens. The moment before it was at time 0; deadlines by clock, of those that run."""

    moment: Fraction
    before: dict[int, Fraction]
    after: dict[int, Fraction]
    starts: frozenset[int]


# a predicate, whether after the step, and its two bits
Said: TypeAlias = tuple[tuple[Predicate, bool, bool, bool], ...]


class Stepping:
    """Clocks with these windows (microseconds), of which each may start anew at each moment, go on if it is not due, or
    stop; and those of the predicates that the windows leave open."""

    def __init__(self, windows: Sequence[tuple[int, int]], predicates: Iterable[Predicate]) -> None:
        self.windows, self.aig = windows, Aig()
        system = new_system(WorldCode(NOTHING, self.aig), self.aig)
        self.start: list[Lit] = []
        self.stay: list[Lit] = []
        clocks: list[Clock] = []
        for i, (lo, hi) in enumerate(windows):
            run = system.bit(f"{i}.run")
            start, stay, due = (self.aig.new_input(f"{i}.{what}") for what in ("start", "stay", "due"))
            run.next = self.aig.either(start, self.aig.all_of([run.now, due ^ 1, stay]))
            clocks.append(Clock(str(i), lo, hi, lo, run.now, due, start, run.next))
            self.start.append(start)
            self.stay.append(stay)
        self.tracked = Tracked(Cone(system, FALSE, list(system.bits.values()), clocks, [], {}, []))
        self.tracked.cone.arrange()
        self.tracked.predicates |= {p for p in predicates if self.tracked.undecided_by_windows(p)}
        self.predicates = sorted(self.tracked.predicates)
        self.refined = Refinement(self.tracked)

    def allowed(self, inputs: Mapping[Node, bool]) -> bool:
        """Whether a step with these inputs meets the constraints."""
        return all(self.aig.evaluate([c.lit for c in self.refined.cone.constraints], inputs))

    def following(self, inputs: Mapping[Node, bool]) -> dict[Predicate, tuple[bool, bool]]:
        """The bits of each predicate after a step."""
        pairs = [self.refined.following[p] for p in self.predicates]
        values = iter(self.aig.evaluate([lit for pair in pairs for lit in pair], inputs))
        return {p: (next(values), next(values)) for p in self.predicates}

    # steps of real deadlines

    def real(self, random: Random) -> Real:
        """Some step; all times are quarters of a microsecond."""
        running = [i for i in range(len(self.windows)) if random.random() < 0.8]
        before = {i: Fraction(random.randint(1, 4 * self.windows[i][1]), 4) for i in running}
        first = min(before.values(), default=Fraction(1))
        moment = first if random.random() < 0.6 else first * random.randint(1, 4) / 4
        after = {i: deadline for i, deadline in before.items() if deadline > moment and random.random() < 0.8}
        starts = frozenset(i for i in range(len(self.windows)) if random.random() < 0.3)
        for i in starts:
            lo, hi = self.windows[i]
            after[i] = moment + Fraction(random.randint(4 * lo, 4 * hi), 4)
        return Real(moment, before, after, starts)

    def every(self, doing: Doing, grain: int = 1) -> Iterator[Real]:
        """All steps in which the clocks do this; all times are of so many parts of a microsecond."""
        running, starting = sorted(doing.run), sorted(doing.start)
        for deadlines in product(*(range(1, grain * self.windows[i][1] + 1) for i in running)):
            before = {i: Fraction(deadline, grain) for i, deadline in zip(running, deadlines, strict=True)}
            for moment in _moments(doing, before, grain):
                kept = {i: before[i] for i in doing.goes_on}
                for lasts in product(
                    *(range(grain * lo, grain * hi + 1) for lo, hi in map(self.windows.__getitem__, starting))
                ):
                    new = {i: moment + Fraction(last, grain) for i, last in zip(starting, lasts, strict=True)}
                    yield Real(moment, before, kept | new, doing.start)

    def said(self, doing: Doing, real: Real) -> Said:
        """What the predicates say before and after this step, of those whose clocks run."""
        after = doing.start | doing.goes_on
        return tuple(
            (p, later, *self.meaning(p, real.after if later else real.before, real.moment if later else Fraction(0)))
            for p in self.predicates
            for later in (False, True)
            if {*p[:2]} - {self.tracked.now} <= (after if later else doing.run)
        )

    def shown(self, real: Real) -> dict[Node, bool]:
        """The inputs of the circuit in this step; what is free is as the step has it."""
        inputs: dict[Node, bool] = {}
        for i, clock in enumerate(self.tracked.clocks):
            inputs[clock.run >> 1] = i in real.before
            inputs[clock.due >> 1] = real.before.get(i) == real.moment
            inputs[self.start[i] >> 1] = i in real.starts
            inputs[self.stay[i] >> 1] = i in real.after and i not in real.starts
        for p in self.predicates:
            bits, (more, least) = self.tracked.bits_of(p), self.meaning(p, real.before, Fraction(0))
            inputs |= {bits.more >> 1: more, bits.least >> 1: least}
            more, least = self.meaning(p, real.after, real.moment)
            inputs |= {bits.free_more >> 1: more, bits.free_least >> 1: least}
        return inputs

    def meaning(self, p: Predicate, deadlines: Mapping[int, Fraction], moment: Fraction) -> tuple[bool, bool]:
        """The bits of a predicate when these clocks run, at a moment."""
        i, j, bound = p
        known = {**deadlines, self.tracked.now: moment}
        if i not in known or j not in known:
            return False, False
        return known[i] - known[j] > bound, known[i] - known[j] >= bound

    # abstract steps

    def steps(self, doings: Iterable[Doing]) -> Iterator[tuple[Doing, dict[Node, bool]]]:
        """Every abstract step in which the clocks do one of these; what says nothing, as not both clocks run, is
        false."""
        for doing in doings:
            inputs = dict.fromkeys(self.refined.cone.inputs + [bit.now >> 1 for bit in self.refined.cone.bits], False)
            for i, clock in enumerate(self.tracked.clocks):
                inputs |= {clock.run >> 1: i in doing.run, clock.due >> 1: i in doing.due}
                inputs |= {self.start[i] >> 1: i in doing.start, self.stay[i] >> 1: i in doing.goes_on}
            open_: list[Node] = []
            for p in self.predicates:
                bits, clocks = self.tracked.bits_of(p), {*p[:2]} - {self.tracked.now}
                open_ += [bits.more >> 1, bits.least >> 1] if clocks <= doing.run else []
                open_ += [bits.free_more >> 1, bits.free_least >> 1] if clocks <= doing.start | doing.goes_on else []
            for values in product((False, True), repeat=len(open_)):
                yield doing, inputs | dict(zip(open_, values, strict=True))

    def is_real(self, doing: Doing, inputs: Mapping[Node, bool]) -> bool:
        """Whether there are real deadlines that do such a step, from wherever its bits before it are so."""
        after, now = self.following(inputs), self.tracked.now
        differences = clock_differences(self.tracked.clocks, doing)
        for p in self.predicates:
            bits = self.tracked.bits_of(p)
            differences += predicate_differences(p, now, doing, False, inputs[bits.more >> 1], inputs[bits.least >> 1])
            differences += predicate_differences(p, now, doing, True, *after[p])
        return conflict(differences) is None

    def could_be(self, doing: Doing, inputs: Mapping[Node, bool]) -> bool:
        """Whether real deadlines may have the bits before the step."""
        standing = Doing(doing.run, frozenset(), frozenset(), frozenset())
        differences = clock_differences(self.tracked.clocks, standing)
        for p in self.predicates:
            bits = self.tracked.bits_of(p)
            said = inputs[bits.more >> 1], inputs[bits.least >> 1]
            differences += predicate_differences(p, self.tracked.now, standing, False, *said)
        return conflict(differences) is None


def _moments(doing: Doing, before: Mapping[int, Fraction], grain: int) -> list[Fraction]:
    """When the step may come: at the deadline of what falls due, or before every deadline."""
    first = min(before.values(), default=Fraction(1))
    if doing.due:
        return [first] if doing.due == {i for i in before if before[i] == first} else []
    return [Fraction(k, grain) for k in range(1, int(grain * first))]


def all_doings(clocks: int) -> Iterator[Doing]:
    """Everything that so many clocks can do in one step."""
    rest, runs, due = ("", "s"), ("r", "rs", "rg"), ("rd", "rds")
    for each in product((*rest, *runs, *due), repeat=clocks):
        yield Doing(*(frozenset(i for i, letters in enumerate(each) if letter in letters) for letter in "rdsg"))
