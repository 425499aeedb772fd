"""From a trace of the circuit to a story of hands and timers, with concrete times and values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from logiccheck.engine.cone import Cone
from logiccheck.engine.grid import round_times
from logiccheck.engine.timing import Runs, Trace, runs_of
from logiccheck.lang.program import Switch
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.system import Clock
from logiccheck.model.circuit.worldcode import WorldCode, example_value
from logiccheck.model.story import Run, Step, Story


def tell(cone: Cone, trace: Trace, overdue: bool, involved: frozenset[str]) -> Story:
    """The story of a trace that is possible in time."""
    return story_at(cone, trace, round_times(cone, trace, overdue), overdue, involved, {})


def story_at(
    cone: Cone,
    trace: Trace,
    times: Sequence[Fraction],
    overdue: bool,
    involved: frozenset[str],
    lengths: Mapping[str, int],
) -> Story:
    """The story of a trace at these times (microseconds) that it admits; all runs of the timers in `lengths` last as
    long as that says."""
    runs = runs_of(cone, trace)
    steps = []
    for k, inputs in enumerate(trace):
        due = sorted(t.key for t, _ in runs.running[k] if isinstance(t, Clock) and inputs.get(t.due >> 1))
        steps.append(Step(times[k], tuple(world_at(cone, inputs).items()), tuple(due)))
    return Story(tuple(steps), tuple(_lengths(cone, trace, runs, times, lengths)), overdue, involved)


def world_at(cone: Cone, inputs: Mapping[Node, bool]) -> dict[str, int | Fraction]:
    """The involved world of one moment: positions by index, numbers by an example of their interval."""
    return {name: _decode(cone.system.world, name, inputs) for name in cone.world}


def _decode(world: WorldCode, name: str, inputs: Mapping[Node, bool]) -> int | Fraction:
    coded = world.coded[name]
    index = sum(1 << i for i, bit in enumerate(coded.bits) if inputs.get(bit >> 1, False))
    variable = coded.variable
    return index if isinstance(variable, Switch) else example_value(variable, index)


def _lengths(cone: Cone, trace: Trace, runs: Runs, times: Sequence[Fraction], lengths: Mapping[str, int]) -> list[Run]:
    """How long each run of a clock lasts: until it falls due, or past everything seen of it (as long as nominal, if
    that is long enough); or as long as `lengths` says. Not told where any length would do as well."""
    clocks = {c.key: c for c in cone.clocks}
    last_seen: dict[tuple[str, int], tuple[int, bool]] = {}
    for k, inputs in enumerate(trace):
        for timer, b in runs.running[k]:
            if isinstance(timer, Clock):
                last_seen[timer.key, b] = (k, bool(inputs.get(timer.due >> 1)))
    result = []
    for k, begun in enumerate(runs.begun):
        for key in sorted(clocks.keys() & set(begun)):
            if key in lengths:
                result.append(Run(key, times[k], Fraction(lengths[key])))
                continue
            seen, due = last_seen.get((key, k), (k, False))
            passed = times[seen] - times[k]
            if due:
                result.append(Run(key, times[k], passed))
            elif passed >= clocks[key].lo:  # a shorter run would have ended by then
                nominal, most = clocks[key].nominal, clocks[key].hi
                result.append(Run(key, times[k], Fraction(nominal if passed < nominal else most)))
    return result
