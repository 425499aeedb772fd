"""Makes the chart of a played scenario: every signal of the vehicle, its settled values from moment to moment."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from logiccheck.base.units import UNITS, in_unit
from logiccheck.lang.program import Program, SignalKind
from logiccheck.model.reaction import Values
from logiccheck.model.timeline import Timeline
from logiccheck.report.chart import Change, Chart, Curve, Sort
from logiccheck.report.values import Place, Scale, Thing, bit, things


def chart(program: Program, timeline: Timeline) -> Chart:
    """At a moment that never settles a signal that goes on changing has no value."""
    moments = tuple(Fraction(played.time) for played in timeline.played)
    at_each = [
        [played.moment.settled.values]
        if played.moment.settles
        else [reaction.values for reaction in played.moment.loop]
        for played in timeline.played
    ]
    places = list(Place)
    shown = sorted((*things(program), *_loads(program)), key=lambda thing: places.index(thing.place))
    curves = tuple(_curve(thing, moments, at_each) for thing in shown)
    return Chart(moments, Fraction(timeline.end), timeline.settles, curves)


def _loads(program: Program) -> Iterator[Thing]:
    """What hangs on a wire: on while that is live."""
    for load in program.loads:
        yield Thing(load.name, load.label, Place.COPPER, *bit(SignalKind.LIVE, load.wire, "on", "off"))


def _curve(thing: Thing, moments: tuple[Fraction, ...], at_each: list[list[Values]]) -> Curve:
    changes: list[Change] = []
    for time, rounds in zip(moments, at_each, strict=True):
        read = {thing.value(values) for values in rounds}
        value = _told(read.pop(), thing.scale) if len(read) == 1 else None
        if not changes or changes[-1].value != value:
            changes.append(Change(time, value))
    scale = thing.scale
    return Curve(thing.name, thing.label, thing.place.value, scale.sort, scale.words, scale.unit, tuple(changes))


def _told(value: Fraction | int | None, scale: Scale) -> Fraction | None:
    """A number in the unit in which it is told, anything else as it is."""
    if value is None:
        return None
    return in_unit(value, UNITS[scale.unit]) if scale.sort is Sort.NUMBER else Fraction(value)
