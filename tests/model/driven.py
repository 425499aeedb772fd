"""Drives a small vehicle by hand in tests: inputs and answers are written as stretches, "[2,4) [6,14)" in seconds.

`[2,4)` is true from 2 up to, not including, 4; `[2,..)` from 2 on. All contacts of the world are off where no stretch
says on.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from logiccheck.lang.load import load_text
from logiccheck.lang.program import Output, Program, Signal, SignalKind, WorldSet
from logiccheck.model.judge import violated
from logiccheck.model.observed import signal
from logiccheck.model.play import first_world, play
from logiccheck.model.signals import Instant, Steps
from logiccheck.model.story import Run
from logiccheck.model.timeline import Timeline

SECOND = 1_000_000


def program(text: str) -> Program:
    """The resolved program of a text that must have no mistakes."""
    loaded = load_text(text)
    assert loaded.program is not None, loaded.diagnostics
    return loaded.program


def boxed(*rules: str, inputs: Iterable[str] = ("x",), more: str = "") -> Program:
    """A vehicle with these inputs, each a contact of the world that makes a wire live, and a box that is always fed.

    The box senses the wire of input x as `x_on` and so on; in the rules x stands for that sense. `more` holds further
    blocks, in which x is the contact.
    """
    names = list(inputs)
    world = "\n".join(f"    {name} contact" for name in names)
    wires = "\n".join(f"    wire {name}_wire from plus when {name}" for name in names)
    senses = "\n".join(f"    sense {name}_on from {name}_wire live" for name in names)
    text = "\n".join(f"    {rule}" for rule in rules)
    for name in names:
        text = re.sub(rf"\b{name}\b", f"{name}_on", text)
    return program(
        f'vehicle "Test"\nworld\n{world}\nharness\n    source plus\n    wire feed from plus\n{wires}\n'
        f'controller "Box" powered by feed\n{senses}\n{text}\n{more}\n'
    )


def micros(text: str) -> int | Fraction:
    value = Fraction(text) * SECOND
    return int(value) if value.denominator == 1 else value


def stretches(text: str) -> list[tuple[int | Fraction, int | Fraction | None]]:
    found = re.findall(r"\[([\d.]+),\s*([\d.]+)\)", text)
    assert len(found) == text.count("["), text
    return [(micros(begin), None if end == ".." else micros(end)) for begin, end in found]


def pulses(name: str, text: str) -> list[WorldSet]:
    """The contact is on in these stretches, off before, between and after them."""
    changes = [] if text.startswith("[0,") else [WorldSet(0, name, 0)]
    for begin, end in stretches(text):
        changes.append(WorldSet(begin, name, 1))
        if end is not None:
            changes.append(WorldSet(end, name, 0))
    return changes


def drive(vehicle: Program, until: str, lasts: Iterable[tuple[str, str, str]] = (), **inputs: str) -> Timeline:
    """Play to `until` (seconds), with each input on in its stretches; `lasts` chooses runs: timer, start, duration."""
    changes = [change for name, text in inputs.items() for change in pulses(name, text)]
    runs = [Run(key, Fraction(micros(start)), Fraction(micros(time))) for key, start, time in lasts]
    timeline = play(vehicle, changes, runs, micros(until), first_world(vehicle, {}, vehicle.at_first))
    assert not timeline.unused
    return timeline


def named(vehicle: Program, name: str) -> Signal:
    """What the name reads as for a requirement."""
    for rule in vehicle.box.rules if vehicle.box else ():
        if rule.name == name:
            return Signal(SignalKind.OUTPUT if isinstance(rule, Output) else SignalKind.RULE, name)
    for kind, items in ((SignalKind.LIVE, vehicle.wires), (SignalKind.RELAY, vehicle.relays)):
        if name in {item.name for item in items}:
            return Signal(kind, name)
    if name in {sense.name for sense in (vehicle.box.senses if vehicle.box else ())}:
        return Signal(SignalKind.SENSE, name)
    if name in {source.name for source in vehicle.sources}:
        return Signal(SignalKind.SOURCE, name)
    assert name == "powered", name
    return Signal(SignalKind.POWERED, name)


def seconds(time: int | Fraction) -> str:
    value = Fraction(time) / SECOND
    return str(value.numerator) if value.denominator == 1 else str(float(value))


def shown(steps: Steps) -> str:
    """The stretches in which a signal is true; it must be one that has no value for an instant only."""
    assert steps.at == steps.after, steps
    return " ".join(
        f"[{seconds(begin.time)},{'..' if over is None else seconds(over.time)})" for begin, over in steps.runs()
    )


def when_true(timeline: Timeline, name: str) -> str:
    """The stretches in which the named wire, relay, sense, rule or output is true when settled."""
    return shown(signal(timeline, named(timeline.program, name)))


def told(instant: Instant | None) -> str:
    """An instant in words: "holds" for none, "at 3", "after 3"."""
    if instant is None:
        return "holds"
    return f"{'after' if instant.after else 'at'} {seconds(instant.time)}"


def verdict(timeline: Timeline, name: str) -> str:
    """What the timeline says of the requirement with this name."""
    forms = {each.name: each.form for each in timeline.program.requirements}
    return told(violated(timeline, forms[name]))


def on_for_an_instant(timeline: Timeline, name: str) -> str:
    """The times of the moments in which a named thing is true in some reaction but not when settled."""
    what = named(timeline.program, name)
    times = [
        each.time
        for each in timeline.settled
        if not each.moment.settled.holds(what) and any(reaction.holds(what) for reaction in each.moment.reactions)
    ]
    return " ".join(seconds(time) for time in times)
