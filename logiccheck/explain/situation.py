"""A signal that is asked about, and the settled situation of a played vehicle in which it is asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Expr, Or, Program, Signal, SignalKind, WireSense
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Values
from logiccheck.model.timeline import Played, Timeline


@frozen
class Asked:
    """A signal by its name: `on` is the expression that says whether it is on, `yes` and `no` are the words for that.

    A wire is on while it is live or grounded: one that is neither is dead.
    """

    name: str
    label: str
    on: Expr
    yes: str = "on"
    no: str = "off"


@frozen
class Situation:
    """A played vehicle at an instant, in microseconds: what was settled last up to it still holds."""

    timeline: Timeline
    time: Time

    @property
    def program(self) -> Program:
        return self.timeline.program

    @property
    def at(self) -> int:
        """Which of the settled moments was the last up to this instant."""
        return max(number for number, played in enumerate(self.timeline.settled) if played.time <= self.time)

    @property
    def played(self) -> Played:
        return self.timeline.settled[self.at]

    @property
    def values(self) -> Values:
        return self.played.moment.settled.values


def signals(program: Program) -> Mapping[str, Asked]:
    """Every signal that something decides, by name; hands and physics move the rest, and a sensed number is theirs."""
    return {each.name: each for each in _signals(program)}


def _signals(program: Program) -> Iterator[Asked]:
    for source in program.sources:
        yield Asked(source.name, source.label, Signal(SignalKind.SOURCE, source.name), "live", "dead")
    for ground in program.grounds:
        yield Asked(ground.name, ground.label, Signal(SignalKind.GROUND, ground.name), "good", "lost")
    for wire in program.wires:
        live, grounded = Signal(SignalKind.LIVE, wire.name), Signal(SignalKind.GROUNDED, wire.name)
        yield Asked(wire.name, wire.label, Or((live, grounded)), "live or grounded", "dead")
    for relay in program.relays:
        yield Asked(relay.name, relay.label, Signal(SignalKind.RELAY, relay.name), "closed", "open")
    for load in program.loads:
        yield Asked(load.name, load.label, Signal(SignalKind.LIVE, load.wire))
    if (box := program.box) is None:
        return
    yield Asked("powered", box.label, Signal(SignalKind.POWERED, "powered"), "powered", "without power")
    for sense in box.senses:
        if isinstance(sense, WireSense):
            yield Asked(sense.name, sense.label, Signal(SignalKind.SENSE, sense.name))
    for rule in box.rules:
        kind = SignalKind.OUTPUT if rule in box.outputs else SignalKind.RULE
        yield Asked(rule.name, rule.label, Signal(kind, rule.name))
