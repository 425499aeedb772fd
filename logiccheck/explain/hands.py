"""What hands and physics can do just now: each thing of the world moved elsewhere, few of them at once.

A number is moved to another of its intervals: each constant it is compared with is one, and between two lies one more.
A switch that goes one position at a time passes those between, a number without jumps the intervals between.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Number, Program, Switch
from logiccheck.model.reaction import World

Value: TypeAlias = int | Fraction


@frozen
class Move:
    """One thing moved: the values it takes one after the other, of which the last stays.

    `cost` counts what hands do: each position that a switch is moved by where it goes one at a time, else once.
    """

    name: str
    way: tuple[Value, ...]
    cost: int

    @property
    def end(self) -> Value:
        return self.way[-1]


Change: TypeAlias = tuple[Move, ...]  # different things, in the order of `Hands.names`


def places(number: Number) -> tuple[Fraction, ...]:
    """One value of each interval of the number, rising."""
    marks = sorted({number.low, *number.bounds, number.high})
    between = {(a + b) / 2 for a, b in pairwise(marks)}
    return tuple(sorted(between | set(number.bounds))) or (number.low,)


def place(number: Number, value: Value) -> int:
    """The index in `places` of the interval that holds the value."""

    def order(value: Value) -> int:
        return 2 * sum(each < value for each in number.bounds) + (value in number.bounds)

    return [order(each) for each in places(number)].index(order(value))


class Hands:
    """All that can be moved in a world of this program; the world may hold more."""

    def __init__(self, program: Program, world: World) -> None:
        switches = {each.name: _turned(each, int(world[each.name])) for each in program.switches}
        numbers = {each.name: _moved(each, world[each.name]) for each in program.numbers}
        self.moves: Mapping[str, tuple[Move, ...]] = {k: v for k, v in (switches | numbers).items() if v}
        self.names = tuple(self.moves)

    def count(self, cost: int) -> int:
        """How many changes there are of just this cost."""
        counts = [1] + [0] * cost
        for name in self.names:
            more = counts[:]
            for move in self.moves[name]:
                for total in range(move.cost, cost + 1):
                    more[total] += counts[total - move.cost]
            counts = more
        return counts[cost]

    def changes(self, cost: int) -> Iterator[Change]:
        """All changes of just this cost."""
        return self._changes(self.names, cost)

    def _changes(self, names: Sequence[str], cost: int) -> Iterator[Change]:
        if cost == 0:
            yield ()
        for at, name in enumerate(names if cost else ()):
            for move in self.moves[name]:
                if move.cost <= cost:
                    for others in self._changes(names[at + 1 :], cost - move.cost):
                        yield (move, *others)


def worlds(change: Change, world: World) -> tuple[World, ...]:
    """The worlds that follow one another: what has to pass something begins early, and all arrive in the last."""
    rounds = max(len(move.way) for move in change)
    found = []
    for number in range(1, rounds + 1):
        after = dict(world)
        for move in change:
            if (step := number - (rounds - len(move.way))) > 0:
                after[move.name] = move.way[step - 1]
        found.append(after)
    return tuple(found)


def _turned(switch: Switch, now: int) -> tuple[Move, ...]:
    ends = [end for end in range(len(switch.positions)) if end != now]
    if not switch.one_by_one:
        return tuple(Move(switch.name, (end,), 1) for end in ends)
    return tuple(Move(switch.name, way, len(way)) for way in (_way(now, end) for end in ends))


def _moved(number: Number, value: Value) -> tuple[Move, ...]:
    there, now = places(number), place(number, value)
    ends = [end for end in range(len(there)) if end != now]
    ways = [(end,) if number.jumps else _way(now, end) for end in ends]
    return tuple(Move(number.name, tuple(there[index] for index in way), 1) for way in ways)


def _way(now: int, end: int) -> tuple[int, ...]:
    return tuple(range(now + 1, end + 1)) if end > now else tuple(range(now - 1, end - 1, -1))
