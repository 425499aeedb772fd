"""The world in bits: each switch as the index of its position, each number as the index of its interval.

The intervals of a number with constants c1 < c2 < ... are, from below: less than c1, c1 itself, between c1 and c2, c2
itself, ...; those outside the number's range are not legal.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Compare, Number, Op, Position, Program, Switch
from logiccheck.model.circuit.aig import Aig, Lit

_HOLDS: dict[Op, Callable[[int, int], bool]] = {
    Op.LT: operator.lt,
    Op.LE: operator.le,
    Op.GT: operator.gt,
    Op.GE: operator.ge,
    Op.EQ: operator.eq,
    Op.NE: operator.ne,
}


@frozen
class Coded:
    """`bits` lowest first; `codes[i]` is true when the variable has the value with index i; `legal` are the indices
    that it can have."""

    variable: Switch | Number
    bits: tuple[Lit, ...]
    codes: tuple[Lit, ...]
    legal: tuple[int, ...]


class WorldCode:
    """All variables of the world, coded over fresh inputs of one graph."""

    def __init__(self, program: Program, aig: Aig) -> None:
        self.aig = aig
        self.coded: dict[str, Coded] = {}
        variables: tuple[Switch | Number, ...] = (*program.switches, *program.numbers)
        for variable in variables:
            values, legal = _values(variable)
            width = max(1, (values - 1).bit_length())
            bits = tuple(aig.new_input(f"{variable.name}.{i}") for i in range(width))
            codes = tuple(
                aig.all_of(bit if value >> i & 1 else bit ^ 1 for i, bit in enumerate(bits)) for value in range(values)
            )
            self.coded[variable.name] = Coded(variable, bits, codes, legal)

    def legal(self) -> list[Lit]:
        """One literal a variable: its code stands for a value that it can have."""
        return [self.aig.any_of(c.codes[i] for i in c.legal) for c in self.coded.values()]

    def position(self, e: Position) -> Lit:
        return self.aig.any_of(self.coded[e.name].codes[i] for i in sorted(e.indices))

    def compare(self, number: str, e: Compare) -> Lit:
        """The comparison `e` made on this number of the world (a number sense passes the number that it reads)."""
        coded = self.coded[number]
        assert isinstance(coded.variable, Number)
        bounds = coded.variable.bounds
        at = 2 * bounds.index(e.bound) + 1
        fits = _HOLDS[e.op]
        return self.aig.any_of(coded.codes[i] for i in coded.legal if fits(i, at))


def _values(variable: Switch | Number) -> tuple[int, tuple[int, ...]]:
    """How many indices there are, and which of them are legal."""
    if isinstance(variable, Switch):
        return len(variable.positions), tuple(range(len(variable.positions)))
    count = 2 * len(variable.bounds) + 1
    return count, tuple(i for i in range(count) if interval_is_legal(variable, i))


def interval(number: Number, index: int) -> tuple[Fraction, Fraction]:
    """The two ends of an interval inside the number's range; both the same for a constant itself."""
    edges = (number.low, *number.bounds, number.high)
    if index % 2:
        return edges[(index + 1) // 2], edges[(index + 1) // 2]
    return edges[index // 2], edges[index // 2 + 1]


def interval_is_legal(number: Number, index: int) -> bool:
    """Whether some value of the range lies in the interval: the outer ones hold the ends of the range."""
    if index % 2:
        return True
    low, high = interval(number, index)
    return low < high


def example_value(number: Number, index: int) -> Fraction:
    """A value in the interval, as round as it admits."""
    low, high = interval(number, index)
    if low == high:
        return low
    if index == 0:
        return low
    step = Fraction(10) ** 9
    while True:
        value = (low // step + 1) * step
        if value < high:
            return value
        step /= 10
