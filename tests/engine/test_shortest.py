"""The shortest stories of random programs with timers, against all sequences of moments one by one."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product

from logiccheck.engine.cone import Cone
from logiccheck.engine.timing import Trace, schedule
from logiccheck.model.circuit.aig import Node
from tests.engine.asking import random_stories, stories
from tests.oracle.loading import loaded

MOST = 14  # inputs times moments

Inputs = dict[Node, bool]


class Every:
    """All lawful sequences of moments of a cone that are possible in time, the short ones first."""

    def __init__(self, cone: Cone) -> None:
        self.cone = cone
        self.lits = [bit.next for bit in cone.bits] + [c.lit for c in cone.constraints]
        self.lits += [clock.run for clock in cone.clocks] + [watch.run for watch in cone.watches] + [cone.bad]
        self.level: list[tuple[Trace, Inputs]] = [([], {bit.now >> 1: False for bit in cone.bits})]

    def longer(self) -> list[Trace]:
        """One moment more; those of them that are bad at the last one."""
        bad: list[tuple[Trace, Inputs]] = []
        level: list[tuple[Trace, Inputs]] = []
        for trace, stored in self.level:
            for inputs in self._inputs():
                values = self.cone.aig.evaluate(self.lits, {**stored, **inputs}, self.cone.order)
                if not self._lawful(inputs, values[len(self.cone.bits) : -1]):
                    continue
                longer = [*trace, inputs]
                if schedule(self.cone, longer)[0] is None:
                    continue
                after = {bit.now >> 1: v for bit, v in zip(self.cone.bits, values, strict=False)}
                (bad if values[-1] else level).append((longer, after))
        self.level = level
        return [trace for trace, _ in bad]

    def _inputs(self) -> Iterator[Inputs]:
        for values in product((False, True), repeat=len(self.cone.inputs)):
            yield dict(zip(self.cone.inputs, values, strict=True))

    def _lawful(self, inputs: Inputs, values: list[bool]) -> bool:
        """What is given holds; only what runs falls due or has lasted."""
        count = len(self.cone.constraints)
        if not all(values[:count]):
            return False
        running = iter(values[count:])
        for clock in self.cone.clocks:
            if not next(running) and inputs[clock.due >> 1]:
                return False
        for watch in self.cone.watches:
            run, ge, gt = next(running), inputs[watch.ge >> 1], inputs[watch.gt >> 1]
            if (gt and not ge) or (ge and not run):
                return False
        return True


def changes(cone: Cone, trace: Trace) -> int:
    return sum(
        any(before[node] is not after[node] for node in nodes)
        for before, after in pairwise(trace)
        for nodes in cone.world.values()
    )


def end(cone: Cone, trace: Trace) -> int:
    """The earliest end in whole microseconds, rounded down."""
    times = schedule(cone, trace)[0] or [Fraction(-1)]
    return int(times[-1])


def test_fewest_moments_then_fewest_changes_then_the_earliest_end() -> None:
    """Wherever there are few enough sequences to look at all."""
    lengths = []
    for each in random_stories(60):
        cone, trace, asked = each.cone, each.trace, each.question.requirement.text
        if len(cone.inputs) * len(trace) > MOST:
            continue
        every = Every(cone)
        for moments in range(1, len(trace) + 1):
            bad = every.longer()
            assert bool(bad) is (moments == len(trace)), asked
        least = min((changes(cone, other), end(cone, other)) for other in bad)
        assert (changes(cone, trace), end(cone, trace)) == least, asked
        lengths.append((len(trace), bool(cone.clocks or cone.watches)))
    assert sum(length >= 3 and timed for length, timed in lengths) > 15


def test_earliest_on_the_grid() -> None:
    """x lasts at least 2 s: on at 1 s it can be off at 3 s, and need not stay on until 4 s."""
    (found,) = stories(
        loaded(
            'vehicle "T"\nworld\n    x contact\n    at first x is off\n'
            "given\n    x lasts at least 2 s\nrequirements\n    danger d never falls(x)\n"
        )
    )
    assert [step.time / 1_000_000 for step in found.story.steps] == [0, 1, 3]
