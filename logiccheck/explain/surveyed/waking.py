"""What the box would take in if it were awake, and which hands move: conditions for what happens around its waking."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    NumberSense,
    Op,
    Or,
    Position,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import Memory, condition_of

POWERED = Signal(SignalKind.POWERED, "powered")


class Remembers(Exception):
    """The expression rests on something that is remembered, or filtered."""


def fed(program: Program) -> Signal | None:
    """What powers the box is live."""
    return None if program.box is None else end(program, program.box.feed)


def end(program: Program, name: str) -> Signal:
    """A wire is live, or a source."""
    sources = {source.name for source in program.sources}
    return Signal(SignalKind.SOURCE if name in sources else SignalKind.LIVE, name)


def as_if_awake(program: Program, expr: Expr, *, filtered: bool = False) -> Expr | None:
    """What the expression, which stands in the box, comes to in copper whether the box is awake or not; None where it
    rests on something that is remembered, or on a filter time; `filtered`: as if no sense had one."""
    try:
        return _outside(program, expr, filtered)
    except Remembers:
        return None


def _outside(program: Program, expr: Expr, filtered: bool) -> Expr:
    assert program.box is not None
    box = program.box

    def change(leaf: Expr) -> Expr:
        match leaf:
            case Const():
                return leaf
            case Compare(sense=True, name=name):
                sense = next(each for each in box.senses if each.name == name)
                assert isinstance(sense, NumberSense)
                return Compare(sense.number, False, leaf.op, leaf.bound)
            case Signal(kind=SignalKind.SENSE, name=name):
                wire = next(each for each in box.senses if each.name == name)
                if not isinstance(wire, WireSense) or (wire.filter is not None and not filtered):
                    raise Remembers
                return Signal(SignalKind.GROUNDED, wire.wire) if wire.grounded else end(program, wire.wire)
            case Signal(kind=SignalKind.RULE | SignalKind.COMMAND, name=name):
                rule = next(each for each in box.rules if each.name == name)
                return _outside(program, condition_of(rule), filtered)
            case Timer(kind=TimerKind.FILTER, x=x) if filtered:
                return _outside(program, x, filtered)
            case _:
                raise Remembers

    return replace_leaves(expr, change)


def hands(program: Program, *conditions: Expr) -> frozenset[str]:
    """The things of the world on which these conditions themselves depend."""
    return Names(program).world(conditions)


def moves(program: Program, names: Iterable[str], part: str) -> Expr:
    """One of these things of the world changes at this moment, as far as anything can tell; `part` tells this from
    other such parts of one condition."""
    return Or(tuple(_edges(program, frozenset(names), part)))


def _edges(program: Program, wanted: frozenset[str], part: str) -> Iterator[Expr]:
    for switch in program.switches:
        if switch.name in wanted:
            for place in range(len(switch.positions)):
                yield Edge(True, Position(switch.name, frozenset({place})), f"{switch.name} comes to {place}, {part}")
    for number in program.numbers:
        if number.name in wanted:
            for op in (Op.GT, Op.GE):
                for bound in number.bounds:
                    there = Compare(number.name, False, op, bound)
                    for rising in (True, False):
                        yield Edge(rising, there, f"{number.name} passes {op.value} {bound} {rising}, {part}")


def operand(node: Memory) -> Expr:
    """What it looks at, as written; of a bistable what sets it."""
    return node.set if isinstance(node, Bistable) else node.x


def is_bare(expr: Expr) -> bool:
    """A name, or that it is not so: whether that can be is a question about the name."""
    return isinstance(expr.x if isinstance(expr, Not) else expr, Signal)


def answers_for_itself(expr: Expr) -> bool:
    """That it is never so is said of itself: of a name, or of something that remembers and never comes on."""
    if is_bare(expr):
        return True
    return isinstance(expr, Timer | Blink | Bistable | Impulse) or (isinstance(expr, Edge) and not expr.rising)
