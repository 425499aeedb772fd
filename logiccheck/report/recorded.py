"""A played scenario as a scenario file that expects what was seen, so that a later change of the rules is noticed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from logiccheck.base.version import LANGUAGE
from logiccheck.lang.program import Program, SignalKind
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Values
from logiccheck.model.story import Step
from logiccheck.report.durations import written
from logiccheck.report.plain import printable, typed
from logiccheck.report.saved import Saved, facts, free
from logiccheck.study.simulate import Simulation

WIDE = 100  # columns that a line of expectations may have

EXPLAINED = """\
# {title}
# Played with {file}, and kept with what its outputs, relays and loads did then. Play it again after a change:
#   logiccheck play {typed} --scenario-file """


def recorded(program: Program, simulation: Simulation, files: Mapping[str, str]) -> Saved:
    """What hands and timers did in it, and as expectations what outputs, relays and loads did at each moment.

    A moment that never settles, if there is one, is its last and expects nothing.
    """
    scenario, file = simulation.scenario, printable(next(iter(files)))
    head = EXPLAINED.format(title=scenario.label or scenario.name, file=file, typed=typed(file))
    label = f' "{scenario.label}"' if scenario.label else ""
    begin = f"scenario {free(program, scenario.name, '_kept')}{label}"
    lines = ["", "", begin, *_lines(program, simulation), f"    until {written(simulation.timeline.end)}"]
    return Saved(f"{scenario.name}.circuit", f"language {LANGUAGE}\n\n{head}", "\n".join(lines) + "\n")


def _lines(program: Program, simulation: Simulation) -> Iterator[str]:
    before: Step | None = None
    seen: dict[str, bool] = {}
    begun = _begun(simulation)
    for played in simulation.timeline.played:
        step = Step(Fraction(played.time), tuple(sorted(played.world.items())), ())
        at = f"at {written(played.time)}"
        if new := facts(program, step, before):
            yield f"    {'at first' if played.time == 0 else at}  {', '.join(new)}"
        for key, duration in begun.get(played.time, ()):
            yield f"    {at}  {key} lasts {written(duration)}"
        if played.moment.settles:
            now = _seen(program, played.moment.settled.values)
            changed = [name if on else f"not {name}" for name, on in now.items() if seen.get(name) is not on]
            yield from _expected(f"    {at}  expect ", changed)
            seen = now
        before = step


def _begun(simulation: Simulation) -> Mapping[Time, list[tuple[str, Time]]]:
    """The runs whose durations were chosen, by the time at which they begin, each timer by its key as it is written."""
    timeline = simulation.timeline
    unused = {(run.key, run.start) for run in timeline.unused}
    begun: dict[Time, list[tuple[str, Time]]] = {}
    for (key, start), duration in timeline.durations.items():
        if (key, start) not in unused:
            begun.setdefault(start, []).append((key if key.isidentifier() else f'"{key}"', duration))
    return begun


def _seen(program: Program, values: Values) -> dict[str, bool]:
    """Whether the box has power, and each output, relay and load is on."""
    signals = [(SignalKind.RELAY, relay.name, relay.name) for relay in program.relays]
    signals += [(SignalKind.LIVE, load.wire, load.name) for load in program.loads]
    if program.box is not None:
        signals += [(SignalKind.POWERED, "powered", "powered")]
        signals += [(SignalKind.OUTPUT, output.name, output.name) for output in program.box.outputs]
    return {name: (kind, read) in values.true for kind, read, name in signals}


def _expected(begin: str, parts: Sequence[str]) -> Iterator[str]:
    """The parts in as many lines as their width asks for."""
    line = ""
    for part in parts:
        if line and len(begin) + len(line) + 2 + len(part) > WIDE:
            yield begin + line
            line = ""
        line += f", {part}" if line else part
    if line:
        yield begin + line
