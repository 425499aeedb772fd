"""What a signal reads at an instant, in the words of its place: "run", "live", "closed", "on", "300 rpm"."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.units import said_quantity
from logiccheck.lang.program import Const, Ground, Number, NumberSense, Output, Program, SignalKind, Switch, WireSense
from logiccheck.model.reaction import Values
from logiccheck.report.chart import Sort
from logiccheck.report.words_played import NOTHING

Reading: TypeAlias = Callable[[Values], Fraction | int | None]


class Place(Enum):
    """Where a thing lives; the value is the title of its rows in a story."""

    HANDS = "hands"
    COPPER = "copper"
    BOX = "box"


@frozen
class Scale:
    """What a value means: one of `words`, or a number in base units that is told in `unit`."""

    sort: Sort
    words: tuple[str, ...] = ()
    unit: str = ""


@frozen
class Thing:
    """A signal of the vehicle and its value at an instant, None for a number that a box without power senses."""

    name: str
    label: str
    place: Place
    scale: Scale
    value: Reading

    def read(self, values: Values) -> str:
        """Its value in words."""
        value = self.value(values)
        if value is None:
            return NOTHING
        scale = self.scale
        return said_quantity(value, scale.unit) if scale.sort is Sort.NUMBER else scale.words[int(value)]


def things(program: Program) -> tuple[Thing, ...]:
    """Every signal, hands first, then copper, then box, each in the order of the file."""
    hands = [Thing(x.name, x.label, Place.HANDS, *_switch(x)) for x in program.switches]
    hands += [Thing(x.name, x.label, Place.HANDS, *_number(x)) for x in program.numbers]
    return (*hands, *_copper(program), *_box(program))


def _copper(program: Program) -> list[Thing]:
    at = Place.COPPER
    return [
        *(Thing(x.name, x.label, at, *bit(SignalKind.SOURCE, x.name, "live", "dead")) for x in program.sources),
        *(Thing(x.name, x.label, at, *bit(SignalKind.GROUND, x.name, "good", "lost")) for x in _grounds(program)),
        *(Thing(x.name, x.label, at, *_wire(x.name)) for x in program.wires),
        *(Thing(x.name, x.label, at, *bit(SignalKind.RELAY, x.name, "closed", "open")) for x in program.relays),
    ]


def _grounds(program: Program) -> list[Ground]:
    """All but the one that is always there."""
    return [ground for ground in program.grounds if ground.condition != Const(True)]


def _box(program: Program) -> list[Thing]:
    box, at = program.box, Place.BOX
    if box is None:
        return []
    units = {number.name: number.unit for number in program.numbers}
    found = [Thing("powered", box.label, at, *bit(SignalKind.POWERED, "powered", "yes", "no"))]
    for sense in box.senses:
        match sense:
            case WireSense(name=name, label=label):
                found.append(Thing(name, label, at, *bit(SignalKind.SENSE, name, "on", "off")))
            case NumberSense(name=name, label=label, number=number):
                found.append(Thing(name, label, at, *_sensed(name, units[number])))
    for rule in box.rules:
        kind = SignalKind.OUTPUT if isinstance(rule, Output) else SignalKind.RULE
        found.append(Thing(rule.name, rule.label, at, *bit(kind, rule.name, "on", "off")))
    return found


def bit(kind: SignalKind, name: str, yes: str, no: str) -> tuple[Scale, Reading]:
    return Scale(Sort.BIT, (no, yes)), lambda values: int((kind, name) in values.true)


def _switch(switch: Switch) -> tuple[Scale, Reading]:
    scale = Scale(Sort.BIT if switch.contact else Sort.CHOICE, switch.positions)
    return scale, lambda values: values.world[switch.name]


def _number(number: Number) -> tuple[Scale, Reading]:
    return Scale(Sort.NUMBER, unit=number.unit), lambda values: values.world[number.name]


def _sensed(name: str, unit: str) -> tuple[Scale, Reading]:
    return Scale(Sort.NUMBER, unit=unit), lambda values: values.numbers.get(name)


def _wire(name: str) -> tuple[Scale, Reading]:
    live, grounded = (SignalKind.LIVE, name), (SignalKind.GROUNDED, name)
    scale = Scale(Sort.WIRE, ("dead", "live", "grounded", "SHORT"))
    return scale, lambda values: int(live in values.true) + 2 * int(grounded in values.true)
