"""What draws current, when, and from which end of the copper."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.lang.program import (
    And,
    Box,
    Const,
    Expr,
    Load,
    Micros,
    Not,
    Output,
    Program,
    Relay,
    Signal,
    SignalKind,
)

POWERED = Signal(SignalKind.POWERED, "powered")
BOX = "box"  # what the box is called among what draws
IN_BOX = "the box"  # the end behind what powers it, as an end of copper; no name of a user has a space


class What(Enum):
    LOAD = "load"
    OUTPUT = "output"
    AWAKE = "box awake"
    ASLEEP = "box asleep"
    COIL = "coil"


@frozen
class Draw:
    """`name` draws so many amperes while `on`, in its first `inrush_time` microseconds `inrush` amperes in all where
    that is said; from the end `at`: a wire, a source, inside the box, an output that feeds a wire, None where it is
    from nothing that is written."""

    what: What
    name: str
    label: str
    on: Expr
    at: str | None
    amperes: Fraction
    inrush: Fraction | None = None
    inrush_time: Micros | None = None


@frozen
class Differs:
    """The line of an output says another current than the loads say that hang on the wire it feeds, which count."""

    output: Output
    wire: str


def draws(program: Program) -> tuple[Draw, ...]:
    """Everything that says what it draws: loads, relays, the box, outputs, in the order of the file."""
    return tuple(_draws(program))


def _draws(program: Program) -> Iterator[Draw]:
    for load in program.loads:
        if load.electrical.current is not None:
            yield _load(load)
    for relay in program.relays:
        if relay.draws is not None:
            on = Signal(SignalKind.RELAY, relay.name)
            yield Draw(What.COIL, relay.name, relay.label, on, supply_of(relay), relay.draws)
    box = program.box
    if box is None:
        return
    yield from _box(program, box)
    for output in box.outputs:
        if output.electrical.current is not None and not hanging(program, output):
            yield _output(output)


def _load(load: Load) -> Draw:
    said, on = load.electrical, Signal(SignalKind.LIVE, load.wire, said=load.name)
    assert said.current is not None
    return Draw(What.LOAD, load.name, load.label, on, load.wire, said.current, *_inrush(said.inrush, said.inrush_time))


def _output(output: Output) -> Draw:
    said, on = output.electrical, Signal(SignalKind.OUTPUT, output.name)
    assert said.current is not None
    inrush = _inrush(said.inrush, said.inrush_time)
    at = fed_from(output) if output.feeds is None else output.name
    return Draw(What.OUTPUT, output.name, output.label, on, at, said.current, *inrush)


def _inrush(amperes: Fraction | None, time: Micros | None) -> tuple[Fraction | None, Micros | None]:
    return (None, None) if amperes is None or not time else (amperes, time)


def _box(program: Program, box: Box) -> Iterator[Draw]:
    fed = Signal(SignalKind.SOURCE if is_source(program, box.feed) else SignalKind.LIVE, box.feed)
    if box.awake is not None:
        yield Draw(What.AWAKE, BOX, box.label, POWERED, IN_BOX, box.awake)
    if box.asleep is not None:
        yield Draw(What.ASLEEP, BOX, box.label, And((fed, Not(POWERED))), IN_BOX, box.asleep)


def is_source(program: Program, name: str) -> bool:
    return any(source.name == name for source in program.sources)


def supply_of(relay: Relay) -> str | None:
    """The wire or source from which its coil draws."""
    return relay.supply.name if isinstance(relay.supply, Signal) else None


def fed_from(output: Output) -> str:
    """The end from which an output takes what it gives."""
    return output.fed_by or IN_BOX


def hanging(program: Program, output: Output) -> tuple[Load | Relay, ...]:
    """What says what it draws and hangs on the wire that the output feeds, or on one that is always joined with it:
    this counts, and the output's own does not."""
    if output.feeds is None:
        return ()
    wires = _one_with(program, output.feeds)
    loads = [each for each in program.loads if each.wire in wires and each.electrical.current is not None]
    coils = [each for each in program.relays if supply_of(each) in wires and each.draws is not None]
    return (*loads, *coils)


def _one_with(program: Program, wire: str) -> set[str]:
    """The wires that nothing ever parts from this one."""
    always = [(each.left, each.right) for each in program.contacts if each.condition == Const(True)]
    wires = {each.name for each in program.wires}
    ways = [(a, b) for left, right in always for a, b in ((left, right), (right, left)) if {a, b} <= wires]
    return spread({wire}, ways)


def differing(program: Program) -> tuple[Differs, ...]:
    """The outputs whose own line says something else than what hangs on the wire they feed."""
    return tuple(_differing(program))


def _differing(program: Program) -> Iterator[Differs]:
    for output in program.box.outputs if program.box is not None else ():
        there, said = hanging(program, output), output.electrical
        if said.current is None or not there or output.feeds is None:
            continue
        loads = [each for each in there if isinstance(each, Load)]
        current = sum((_amperes(each) for each in there), Fraction(0))
        inrush = sum((each.electrical.inrush or each.electrical.current or 0 for each in loads), Fraction(0))
        inrush += current - sum((each.electrical.current or 0 for each in loads), Fraction(0))
        if (said.current, said.inrush or said.current) != (current, inrush):
            yield Differs(output, output.feeds)


def _amperes(each: Load | Relay) -> Fraction:
    said = each.draws if isinstance(each, Relay) else each.electrical.current
    return said or Fraction(0)


def silent(program: Program) -> dict[str, str]:
    """Loads and outputs that do not say what they draw, each with the end from which it does; not the outputs that
    feed a wire."""
    found = {load.name: load.wire for load in program.loads if load.electrical.current is None}
    outputs = program.box.outputs if program.box is not None else ()
    unsaid = [o for o in outputs if o.electrical.current is None and o.feeds is None]
    return found | {output.name: fed_from(output) for output in unsaid}
