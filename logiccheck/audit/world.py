"""The world of one moment: each switch and number as the place of its value among all its values, counted from 0.

A switch has its positions in the order written. A number has, from below: less than its first constant, that constant,
between it and the next, the next, ..., more than the last; outer values that lie outside its range do not occur. A
variable is given by the conditions "its place is i or more", so that a comparison is one of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from logiccheck.audit.gates import NO, YES, Gates, Lit
from logiccheck.lang.program import Number, Op, Program


@dataclass(slots=True)
class Variable:
    """Places run from `least` to `most`, of `count` in all; `reaches[i]` is "i or more", for those between."""

    gates: Gates
    count: int
    least: int
    most: int
    constants: tuple[Fraction, ...] = ()
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    reaches: dict[int, Lit] = field(init=False)

    def __post_init__(self) -> None:
        self.reaches = {place: self.gates.input() for place in range(self.least + 1, self.most + 1)}

    def at_least(self, place: int) -> Lit:
        if place <= self.least:
            return YES
        return self.reaches.get(place, NO)

    def at(self, place: int) -> Lit:
        if not self.least <= place <= self.most:
            return NO
        return self.gates.both(self.at_least(place), -self.at_least(place + 1))

    def among(self, places: Iterable[int]) -> Lit:
        return self.gates.any([self.at(place) for place in sorted(places)])

    @property
    def places(self) -> range:
        return range(self.least, self.most + 1)

    @property
    def digits(self) -> range:
        """Of the place written as a binary number, lowest first."""
        return range(max(1, (self.count - 1).bit_length()))

    def digit(self, k: int) -> Lit:
        return self.among(place for place in self.places if place >> k & 1)

    def held_against(self, op: Op, bound: Fraction) -> Lit:
        """The comparison of a number with a constant."""
        place = self._place(bound)
        above, same = self.at_least(place + 1), self.at(place)
        match op:
            case Op.GT:
                return above
            case Op.LE:
                return -above
            case Op.GE:
                return self.at_least(place)
            case Op.LT:
                return -self.at_least(place)
            case Op.EQ:
                return same
            case Op.NE:
                return -same

    def _place(self, bound: Fraction) -> int:
        if bound in self.constants:
            return 2 * self.constants.index(bound) + 1
        if self.low <= bound <= self.high:
            raise AssertionError(f"{bound} is no constant of the number")
        return -1 if bound < self.low else self.count  # less, or more, than every value


class World:
    def __init__(self, program: Program, gates: Gates) -> None:
        self.gates = gates
        self.variables: dict[str, Variable] = {}
        for switch in program.switches:
            count = len(switch.positions)
            self.variables[switch.name] = Variable(gates, count, 0, count - 1)
        for number in program.numbers:
            self.variables[number.name] = _number(number, gates)

    def orders(self) -> Iterator[tuple[Lit, ...]]:
        """For each variable its conditions "i or more", rising: each follows from the next."""
        for variable in self.variables.values():
            yield tuple(variable.reaches[place] for place in sorted(variable.reaches))


def _number(number: Number, gates: Gates) -> Variable:
    """Nothing lies below a constant that is the low end, or above one that is the high end."""
    constants = number.bounds
    count = 2 * len(constants) + 1
    least = 1 if constants and constants[0] == number.low else 0
    most = count - 2 if constants and constants[-1] == number.high else count - 1
    return Variable(gates, count, least, most, constants, number.low, number.high)
