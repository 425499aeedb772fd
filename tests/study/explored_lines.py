"""What never changes, what is alike and what goes on without end in a small vehicle, by exploring all of it.

Shares with the search for findings nothing but the resolved program and the playing of moments: every reaction of every
moment that can come is made by the interpreter, and each question is answered by looking at them one by one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from logiccheck.lang.program import (
    Expr,
    Load,
    Output,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    WireSense,
)
from logiccheck.lang.walk import references
from logiccheck.model.play import first_world
from logiccheck.model.reaction import Reaction
from logiccheck.model.truth import Node, operands, truth
from tests.oracle.explorer import Explorer, Search
from tests.oracle.kernel import Kernel, Situation
from tests.oracle.making import Making
from tests.oracle.obstacles import Graph
from tests.study.explored_time import POWERED, Noting

Item = Relay | Load | WireSense | Rule | Output


def signal(item: Item) -> Signal:
    """What says whether it is on."""
    match item:
        case Relay(name=name):
            return Signal(SignalKind.RELAY, name)
        case Load(wire=wire):
            return Signal(SignalKind.LIVE, wire)
        case WireSense(name=name):
            return Signal(SignalKind.SENSE, name)
        case Rule(name=name):
            return Signal(SignalKind.RULE, name)
        case Output(name=name):
            return Signal(SignalKind.OUTPUT, name)


def different(reactions: Iterable[Reaction]) -> list[Reaction]:
    """One of all that read the same."""
    found: dict[object, Reaction] = {}
    for each in reactions:
        values = each.values
        there = (*sorted(values.world.items()), *sorted(values.numbers.items()))
        found.setdefault((frozenset(values.true), frozenset(values.nodes), there), each)
    return list(found.values())


class Everything:
    """All reactions of a vehicle. Raises `TooBig`."""

    def __init__(self, program: Program, limit: int) -> None:
        self.program = program
        kernel = Noting(program)
        Search(Explorer(kernel, limit)).run(patient=True)
        self.moments: list[tuple[Reaction | None, tuple[Reaction, ...]]] = []
        for change in kernel.changes:
            before = change.before
            was = None if before is None else kernel.machine.repeat(before.memory, kernel.reading(before.world))
            self.moments.append((was, kernel.reactions(before, change.world, change.due, True)))
        self.settled = different(now[-1] for _, now in self.moments)
        self.all = different(each for _, now in self.moments for each in now)
        box = program.box
        self.lines = {x.name: x.command if isinstance(x, Output) else x.expr for x in (box.rules if box else ())}

    def ever(self, *conditions: Expr, passing: bool = False) -> bool:
        """All of them are so at once in some settled situation, or in some reaction."""
        return any(all(each.holds(c) for c in conditions) for each in (self.all if passing else self.settled))

    def off(self, item: Item | None, while_: tuple[Expr, ...], passing: bool = False) -> bool:
        """It is off in some situation, or some reaction, in which all of these are so."""
        on = POWERED if item is None else signal(item)
        there = self.all if passing else self.settled
        return any(all(each.holds(c) for c in while_) and not each.holds(on) for each in there)

    def apart(self, one: Signal, two: Signal) -> bool:
        """They differ in some reaction."""
        return any(each.holds(one) != each.holds(two) for each in self.all)

    def drops(self, relay: Relay, while_: tuple[Expr, ...]) -> bool:
        """It goes from settled on to settled off, while these are so."""
        on = signal(relay)
        return any(
            was is not None and was.holds(on) and not now[-1].holds(on) and all(now[-1].holds(c) for c in while_)
            for was, now in self.moments
        )

    # --------------------------------------------------------------------------------------------------- terms

    def matters(self, line: str, leaf: Expr) -> bool:
        """Somewhere it makes a difference what this leaf, an object of its own, says: to an output once all has
        settled; in any reaction to what copper sees of an output, to a coil, and to what is remembered."""
        return any(self.differs(self.lasting(at), leaf, at) for at in self.settled) or any(
            self.differs(self.instant(line, at), leaf, at) for at in self.all
        )

    def differs(self, shown: Iterator[Expr], leaf: Expr, at: Reaction) -> bool:
        return any(self.value(e, leaf, True, at) != self.value(e, leaf, False, at) for e in shown)

    def lasting(self, at: Reaction) -> Iterator[Expr]:
        for output in self.outputs_on(at):
            if not self.seen_by_copper(output):
                yield output.command

    def instant(self, line: str, at: Reaction) -> Iterator[Expr]:
        if line not in self.lines:
            relay = next(each for each in self.program.relays if each.name == line)
            if relay.supply is None or at.holds(relay.supply):
                yield relay.coil
                yield from inside(relay.coil)
            return
        for output in self.outputs_on(at):
            if self.seen_by_copper(output):
                yield output.command
        if at.holds(POWERED):
            for expr in self.lines.values():
                yield from inside(expr)

    def outputs_on(self, at: Reaction) -> Iterator[Output]:
        """The outputs that could be on: the box has power, and they are fed."""
        for output in self.program.box.outputs if self.program.box is not None and at.holds(POWERED) else ():
            if output.fed_by is None or at.values.live(output.fed_by):
                yield output

    def seen_by_copper(self, output: Output) -> bool:
        coils = {each.name for relay in self.program.relays for each in references(relay.coil)}
        return output.feeds is not None or output.name in coils

    def value(self, expr: Expr, chosen: Expr, says: bool, at: Reaction) -> bool:
        """What an expression is if the chosen leaf says this, and what is remembered stays."""

        def leaf(part: Expr) -> bool:
            if part is chosen:
                return says
            if isinstance(part, Signal) and part.kind in (SignalKind.RULE, SignalKind.COMMAND):
                return self.value(self.lines[part.name], chosen, says, at)
            return at.holds(part)

        return truth(expr, leaf)


def inside(expr: Expr) -> Iterator[Expr]:
    """What is remembered anywhere in an expression."""
    for part in operands(expr):
        if isinstance(expr, Node):
            yield part
        yield from inside(part)


# ------------------------------------------------------------------------------------------------- without an end


def stays_on(program: Program, items: Iterable[Relay | Output | Load], limit: int) -> set[str]:
    """Which of these can be on for ever while the world is as at first and nothing moves. Raises `TooBig`."""
    graph = Graph(program, limit, Making())
    kernel = graph.explorer.kernel
    first = first_world(program, {}, program.at_first)
    bounds = {number.name: number.bounds for number in program.numbers}
    world = {
        name: (values, first[name], bounds.get(name)) for name, values in zip(kernel.names, kernel.values, strict=True)
    }
    parked = tuple(region(*each) for each in world.values())
    still = {
        place: [move.place for move in moves if move.place and move.place[0].world == parked]
        for place, moves in graph.next.items()
        if place[0].world == parked
    }
    found = set()
    for item in items:
        on = {place for place in still if holds(kernel, place[0], signal(item))}
        while kept := {p for p in on if p[0].clocks and not any(then in on for then in still[p])}:
            on -= kept
        if on:
            found.add(item.name)
    return found


def region(values: tuple[int | Fraction, ...], value: int | Fraction, bounds: tuple[Fraction, ...] | None) -> int:
    """Which of these values stands for this one: no bound tells them apart."""
    if bounds is None:
        return values.index(value)
    sides = [[(v > bound) - (v < bound) for bound in bounds] for v in (*values, value)]
    return sides.index(sides[-1])


def holds(kernel: Kernel, situation: Situation, on: Signal) -> bool:
    """What the situation has settled to."""
    return kernel.machine.repeat(situation.memory, kernel.reading(situation.world)).holds(on)
